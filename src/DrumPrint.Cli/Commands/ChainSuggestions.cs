using System.CommandLine;
using System.CommandLine.Completions;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Printing;

namespace DrumPrint.Cli.Commands;

/// <summary>What the chain on a command line offers to complete its options with.</summary>
internal static class ChainSuggestions
{
    private const string DrumBus = "drum_bus";

    /// <summary>Has options completed with words of the chain.</summary>
    /// <param name="path">The argument that names it.</param>
    /// <param name="words">The words: <see cref="Prints"/>, <see cref="Parts"/> or <see cref="Tracks"/>.</param>
    /// <param name="options">The options.</param>
    public static void Offer(Func<ParseResult, string?> path, Func<Chain, IEnumerable<string>> words, params IEnumerable<Option> options)
    {
        foreach (var option in options)
        {
            option.CompletionSources.Add((CompletionContext context) => Of(path(context.ParseResult), words).Select(w => new CompletionItem(w)));
        }
    }

    /// <summary>Every file that a chain makes.</summary>
    public static IEnumerable<string> Prints(Chain chain) =>
        [.. chain.Prints.Select(p => p.Name), .. new[] { chain.Output.Rough?.Name, chain.DrumBus.Count > 0 ? chain.Output.RoughWithBus?.Name : null, chain.Output.Click?.Name }.OfType<string>()];

    /// <summary>Everything that can be left out of one.</summary>
    public static IEnumerable<string> Parts(Chain chain) =>
    [
        .. chain.Buses.SelectMany(b => b.Stages.Select(s => s.Definition.Key).Concat(b.Feeds.Select(f => f.Source)).Select(p => $"{b.Name}/{p}").Prepend(b.Name)),
        .. chain.DrumBus.Select(s => $"{DrumBus}/{s.Definition.Key}").Prepend(DrumBus).Where(_ => chain.DrumBus.Count > 0),
        .. chain.Tracks.Select(t => t.Name),
    ];

    /// <summary>Its raw tracks.</summary>
    public static IEnumerable<string> Tracks(Chain chain) => chain.Tracks.Select(t => t.Name);

    // A line that is being typed may name anything; what is no sound chain offers nothing, and says nothing.
    private static IEnumerable<string> Of(string? path, Func<Chain, IEnumerable<string>> words)
    {
        if (path is null || (!Directory.Exists(path) && !Path.GetExtension(path).StartsWith(".json", StringComparison.OrdinalIgnoreCase)))
        {
            return [];
        }

        try
        {
            return [.. words(ChainReader.Read(SessionFolder.Chain(path))).Distinct(StringComparer.Ordinal)];
        }
        catch (Exception e) when (e is DrumPrintException or IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }
}
