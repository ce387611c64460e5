using System.CommandLine;
using DrumPrint.Cli.Output;
using DrumPrint.Diff;

namespace DrumPrint.Cli.Commands;

/// <summary><c>diff A B</c>: what changed between two tickets, chains, prints or folders.</summary>
internal static class DiffCommand
{
    public static Command Create()
    {
        var a = new Argument<string>("A") { Description = "A ticket, a chain, a print, or a folder of prints: how it was." };
        var b = new Argument<string>("B") { Description = "The same, or another kind: how it is now." };
        var json = new Option<bool>("--json") { Description = "Write the result as JSON to standard output; nothing else goes there." };
        var quiet = new Option<bool>("--quiet") { Description = "Only the exit code: 0 the same, 1 different, 2 or 3 cannot be compared." };
        var command = new Command("diff", "Say what changed between two tickets, chains, prints or folders, and which prints that reaches.") { a, b, json, quiet };
        var reading = new ReadingOption();
        reading.AddTo(command);
        Guard.Run(command, (parsed, _) => UnfinishedSets.Tell([parsed.GetRequiredValue(a), parsed.GetRequiredValue(b)], () =>
        {
            var report = Differ.Compare(parsed.GetRequiredValue(a), parsed.GetRequiredValue(b), reading.Of(parsed));
            if (parsed.GetValue(json))
            {
                DiffJson.Write(Terminal.Json(), report);
            }
            else if (!parsed.GetValue(quiet))
            {
                DiffScreen.Write(report);
            }

            return report.IsEqual ? ExitCode.Done : ExitCode.Findings;
        }));
        return command;
    }
}
