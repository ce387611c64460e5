namespace DrumPrint.Tests;

/// <summary>Pairs of namespaces that still reach each other. These lists only get shorter.</summary>
internal static class KnownCircles
{
    public static IReadOnlyList<string> OfTheEngine { get; } =
    [
        "DrumPrint.Audio ⇄ DrumPrint.Chains",
        "DrumPrint.Audio ⇄ DrumPrint.Chains.Reading",
        "DrumPrint.Chains ⇄ DrumPrint.Chains.Reading",
        "DrumPrint.Comparing ⇄ DrumPrint.Comparing.Measuring",
        "DrumPrint.Comparing ⇄ DrumPrint.Comparing.Targets",
        "DrumPrint.Comparing ⇄ DrumPrint.Planning",
        "DrumPrint.Comparing ⇄ DrumPrint.Prints",
        "DrumPrint.Comparing ⇄ DrumPrint.Prints.Differences",
        "DrumPrint.Comparing ⇄ DrumPrint.Prints.Keeping",
        "DrumPrint.Comparing ⇄ DrumPrint.Prints.Reprinting",
        "DrumPrint.Comparing ⇄ DrumPrint.Prints.Ticketing",
        "DrumPrint.Comparing ⇄ DrumPrint.Rendering",
        "DrumPrint.Comparing.Measuring ⇄ DrumPrint.Comparing.Targets",
        "DrumPrint.Comparing.Measuring ⇄ DrumPrint.Planning",
        "DrumPrint.Comparing.Measuring ⇄ DrumPrint.Prints",
        "DrumPrint.Comparing.Measuring ⇄ DrumPrint.Prints.Differences",
        "DrumPrint.Comparing.Measuring ⇄ DrumPrint.Prints.Keeping",
        "DrumPrint.Comparing.Measuring ⇄ DrumPrint.Prints.Reprinting",
        "DrumPrint.Comparing.Measuring ⇄ DrumPrint.Prints.Ticketing",
        "DrumPrint.Comparing.Measuring ⇄ DrumPrint.Rendering",
        "DrumPrint.Comparing.Targets ⇄ DrumPrint.Planning",
        "DrumPrint.Comparing.Targets ⇄ DrumPrint.Prints",
        "DrumPrint.Comparing.Targets ⇄ DrumPrint.Prints.Differences",
        "DrumPrint.Comparing.Targets ⇄ DrumPrint.Prints.Keeping",
        "DrumPrint.Comparing.Targets ⇄ DrumPrint.Prints.Reprinting",
        "DrumPrint.Comparing.Targets ⇄ DrumPrint.Prints.Ticketing",
        "DrumPrint.Comparing.Targets ⇄ DrumPrint.Rendering",
        "DrumPrint.Demo ⇄ DrumPrint.Demo.Recording",
        "DrumPrint.Planning ⇄ DrumPrint.Prints",
        "DrumPrint.Planning ⇄ DrumPrint.Prints.Differences",
        "DrumPrint.Planning ⇄ DrumPrint.Prints.Keeping",
        "DrumPrint.Planning ⇄ DrumPrint.Prints.Reprinting",
        "DrumPrint.Planning ⇄ DrumPrint.Prints.Ticketing",
        "DrumPrint.Planning ⇄ DrumPrint.Rendering",
        "DrumPrint.Prints ⇄ DrumPrint.Prints.Differences",
        "DrumPrint.Prints ⇄ DrumPrint.Prints.Keeping",
        "DrumPrint.Prints ⇄ DrumPrint.Prints.Reprinting",
        "DrumPrint.Prints ⇄ DrumPrint.Prints.Ticketing",
        "DrumPrint.Prints ⇄ DrumPrint.Rendering",
        "DrumPrint.Prints.Differences ⇄ DrumPrint.Prints.Keeping",
        "DrumPrint.Prints.Differences ⇄ DrumPrint.Prints.Reprinting",
        "DrumPrint.Prints.Differences ⇄ DrumPrint.Prints.Ticketing",
        "DrumPrint.Prints.Differences ⇄ DrumPrint.Rendering",
        "DrumPrint.Prints.Keeping ⇄ DrumPrint.Prints.Reprinting",
        "DrumPrint.Prints.Keeping ⇄ DrumPrint.Prints.Ticketing",
        "DrumPrint.Prints.Keeping ⇄ DrumPrint.Rendering",
        "DrumPrint.Prints.Reprinting ⇄ DrumPrint.Prints.Ticketing",
        "DrumPrint.Prints.Reprinting ⇄ DrumPrint.Rendering",
        "DrumPrint.Prints.Ticketing ⇄ DrumPrint.Rendering",
    ];

    public static IReadOnlyList<string> OfTheCommandLine { get; } =
    [
        "DrumPrint.Cli.Commands ⇄ DrumPrint.Cli.Output",
    ];
}
