using System.CommandLine;

namespace DrumPrint.Cli.Commands;

/// <summary>The examples at the end of each command's help.</summary>
internal static class HelpExamples
{
    private static readonly Dictionary<string, string[]> All = new(StringComparer.Ordinal)
    {
        ["demo"] = ["demo", "demo SlowFerryWhole --full --no-print"],
        ["print"] = ["print SlowFerry/SlowFerry.chain.json", "print my-song.chain.json --only Snare --from bar9 --to bar12"],
        ["bench"] = ["bench SlowFerry", "bench my-song.chain.json --no-browser"],
        ["reprint"] = ["reprint SlowFerry/prints", "reprint 01_Kick_MySong_v1.wav --raw takes --out again"],
        ["chain"] = ["chain prints/MySong_v1.ticket.json", "chain 01_Kick_MySong_v1.wav --out kick.chain.json"],
        ["diff"] = ["diff v1/MySong_v1.ticket.json my-song.chain.json", "diff 12_Impact_MySong_v1.wav 12_Impact_MySong_v2.wav"],
        ["deliver"] = ["deliver SlowFerry/SlowFerry.chain.json --to deliveries --zip", "deliver --check deliveries/SlowFerry_v1"],
        ["archive"] = ["archive SlowFerry/SlowFerry.chain.json --to archive", "archive SlowFerry --to /media/backup"],
        ["whose"] = ["whose \"Kick bounce.wav\" deliveries", "whose 01_Kick.wav deliveries/SlowFerry_v1 deliveries/SlowFerry_v2"],
        ["store"] = ["store list SlowFerry", "store clear SlowFerry"],
        ["store list"] = ["store list", "store list SlowFerry"],
        ["store verify"] = ["store verify", "store verify SlowFerry"],
        ["store clear"] = ["store clear", "store clear SlowFerry"],
        ["begin"] = ["begin takes", "begin takes --explain"],
        ["carry"] = ["carry SlowFerry --to NextSong", "carry album/one/One.chain.json --to album/two"],
        ["align"] = ["align my-song.chain.json --picture align.svg", "align my-song.chain.json --apply \"kick in\" \"snare bottom\""],
        ["measure"] = ["measure prints", "measure --hits --key-high-pass 150 --key-low-pass 1200 raw --picture hits.svg"],
        ["compare"] = ["compare v1/prints v2/prints --page compare.html", "compare my-song.chain.json --without \"impact/saturate\""],
        ["check"] = ["check my-song.chain.json", "check takes --json"],
        ["schema"] = ["schema", "schema --ticket"],
        ["processors"] = ["processors", "processors compress"],
        ["completions"] = ["completions bash", "completions powershell"],
        ["selftest"] = ["selftest", "selftest --quiet"],
        ["help"] = ["help", "help print"],
    };

    /// <summary>What a person could type, without the program's name; empty for the program itself.</summary>
    public static IReadOnlyList<string> Of(Command command) => All.GetValueOrDefault(Name(command)) ?? [];

    private static string Name(Command command) => string.Join(' ', Names(command).Reverse());

    private static IEnumerable<string> Names(Command command)
    {
        for (var at = command; at is not null and not RootCommand; at = at.Parents.OfType<Command>().FirstOrDefault())
        {
            yield return at.Name;
        }
    }
}
