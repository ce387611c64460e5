using DrumPrint.Chains;

namespace DrumPrint.Checking.Subjects;

/// <summary>What lies above a bus.</summary>
internal static class BusTree
{
    /// <summary>The bus and every bus that feeds it, however far away.</summary>
    public static IReadOnlyList<Bus> Above(Chain chain, string bus)
    {
        var found = new List<Bus>();
        var open = new Stack<string>([bus]);
        while (open.TryPop(out var name))
        {
            if (chain.Buses.FirstOrDefault(b => b.Name == name) is { } next && !found.Contains(next))
            {
                found.Add(next);
                foreach (var feed in next.Feeds)
                {
                    open.Push(feed.Source);
                }
            }
        }

        return found;
    }

    /// <summary>Whether a bus and all above it have no processor, so that its print is the sum of its tracks.</summary>
    public static bool IsLinear(Chain chain, string bus) => Above(chain, bus).All(b => b.Stages.Count == 0);

    /// <summary>Whether somewhere above sound is folded with an impulse or put off, so that the print has no one place in time.</summary>
    public static bool IsSpread(Chain chain, string bus) => Above(chain, bus).Any(b => b.Stages.Any(s => s.Definition.Key is "convolve" or "delay"));

    /// <summary>Everything that is heard in some file, or listened to by a processor of it.</summary>
    public static HashSet<string> Heard(Chain chain)
    {
        var heard = new HashSet<string>(StringComparer.Ordinal);
        var open = new Stack<string>([.. chain.Prints.Select(p => p.Bus), .. chain.DrumBus.Select(s => s.Key).OfType<string>()]);
        while (open.TryPop(out var name))
        {
            if (heard.Add(name) && chain.Buses.FirstOrDefault(b => b.Name == name) is { } bus)
            {
                foreach (var next in bus.Feeds.Select(f => f.Source).Concat(bus.Stages.Select(s => s.Key).OfType<string>()))
                {
                    open.Push(next);
                }
            }
        }

        return heard;
    }
}
