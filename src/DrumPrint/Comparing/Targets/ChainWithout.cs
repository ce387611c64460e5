using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Language;

namespace DrumPrint.Comparing.Targets;

/// <summary>A chain with a bus, a processor, a feed or a track left out.</summary>
internal static class ChainWithout
{
    /// <summary>How a word names the drum bus.</summary>
    public const string DrumBus = "drum_bus";

    /// <param name="chain">The whole chain.</param>
    /// <param name="word"><c>BUS</c>, <c>BUS/PROCESSOR</c>, <c>BUS/PROCESSOR 2</c>, <c>BUS/FEED</c> or a track.</param>
    /// <exception cref="UsageException">Nothing is called that, or nothing would be left.</exception>
    public static Chain Of(Chain chain, string word)
    {
        var cut = word.IndexOf('/', StringComparison.Ordinal);
        var left = cut < 0 ? WithoutSource(chain, word) : WithoutPart(chain, word, word[..cut].Trim(), word[(cut + 1)..].Trim());
        return Pruned(left, word);
    }

    /// <summary>Whether a word names something that only the second rough holds.</summary>
    public static bool IsOfDrumBus(string word) => Same(word.Split('/')[0].Trim().Replace(' ', '_'), DrumBus);

    private static Chain WithoutSource(Chain chain, string word)
    {
        var name = chain.Buses.Select(b => b.Name).Concat(chain.Tracks.Select(t => t.Name)).FirstOrDefault(n => Same(n, word));
        if (name is not null)
        {
            return WithoutFeedsFrom(chain, name) with { Prints = [.. chain.Prints.Where(p => p.Bus != name)] };
        }

        if (IsOfDrumBus(word))
        {
            return chain with { DrumBus = [] };
        }

        if (chain.Prints.FirstOrDefault(p => Same(p.Name, word)) is { } print)
        {
            return chain with { Prints = [.. chain.Prints.Where(p => p != print)] };
        }

        List<string> names = [.. chain.Buses.Select(b => b.Name), .. chain.Tracks.Select(t => t.Name), .. chain.DrumBus.Count > 0 ? new[] { DrumBus } : []];
        throw Unknown(word, "there is no bus and no track of that name", names);
    }

    private static Chain WithoutPart(Chain chain, string word, string busName, string part)
    {
        if (IsOfDrumBus(busName))
        {
            return chain with { DrumBus = WithoutStage(chain.DrumBus, part) ?? throw Unknown(word, "the drum bus has no such processor", [.. chain.DrumBus.Select(s => $"{DrumBus}/{s.Definition.Key}")]) };
        }

        var bus = chain.Buses.FirstOrDefault(b => Same(b.Name, busName))
            ?? throw Unknown(word, $"there is no bus '{busName}'", [.. chain.Buses.Select(b => b.Name)]);
        Bus changed;
        if (WithoutStage(bus.Stages, part) is { } stages)
        {
            changed = bus with { Stages = stages };
        }
        else if (bus.Feeds.Any(f => Same(f.Source, part)))
        {
            changed = bus with { Feeds = [.. bus.Feeds.Where(f => !Same(f.Source, part))] };
        }
        else
        {
            throw Unknown(word, $"bus '{bus.Name}' has no processor and no feed '{part}'", [.. bus.Stages.Select(s => $"{bus.Name}/{s.Definition.Key}"), .. bus.Feeds.Select(f => $"{bus.Name}/{f.Source}")]);
        }

        return chain with { Buses = [.. chain.Buses.Select(b => b == bus ? changed : b)] };
    }

    // "eq" is every eq of the bus, "eq 2" the second one. Null when there is none.
    private static List<Stage>? WithoutStage(IReadOnlyList<Stage> stages, string part)
    {
        var words = part.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var ordinal = 0;
        if (words.Length == 0 || words.Length > 2 || (words.Length == 2 && !int.TryParse(words[1], NumberStyles.None, CultureInfo.InvariantCulture, out ordinal)))
        {
            return null;
        }

        var kept = new List<Stage>();
        var seen = 0;
        foreach (var stage in stages)
        {
            var isMeant = Same(stage.Definition.Key, words[0]) && (++seen == ordinal || words.Length == 1);
            if (!isMeant)
            {
                kept.Add(stage);
            }
        }

        return kept.Count < stages.Count ? kept : null;
    }

    private static Chain WithoutFeedsFrom(Chain chain, string source) => chain with
    {
        Buses = [.. chain.Buses.Select(b => b with { Feeds = [.. b.Feeds.Where(f => f.Source != source)] })],
    };

    // A bus that nothing feeds any more goes too, and so on.
    private static Chain Pruned(Chain chain, string word)
    {
        while (chain.Buses.FirstOrDefault(b => b.Feeds.Count == 0) is { } empty)
        {
            if (chain.Buses.Where(b => b != empty).SelectMany(b => b.Stages).Concat(chain.DrumBus).Any(s => s.Key == empty.Name))
            {
                throw new UsageException($"--without {word}: bus '{empty.Name}' would be empty, and a processor listens to it as its key.");
            }

            chain = WithoutFeedsFrom(chain, empty.Name) with { Prints = [.. chain.Prints.Where(p => p.Bus != empty.Name)] };
            chain = chain with { Buses = [.. chain.Buses.Where(b => b.Name != empty.Name)] };
        }

        return chain.Prints.Count > 0 ? chain : throw new UsageException($"--without {word}: no print would be left.");
    }

    private static UsageException Unknown(string word, string why, IReadOnlyList<string> valid)
    {
        var near = Nearest.Word(word, valid);
        return new UsageException(near is null
            ? $"--without {word}: {why}. There are {string.Join(", ", valid)}."
            : $"--without {word}: {why}. Did you mean '{near}'?");
    }

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);
}
