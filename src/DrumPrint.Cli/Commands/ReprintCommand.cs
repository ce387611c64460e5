using System.CommandLine;
using DrumPrint.Cli.Output;
using DrumPrint.Reprinting;

namespace DrumPrint.Cli.Commands;

/// <summary><c>reprint TARGET</c>: makes prints again and compares.</summary>
internal static class ReprintCommand
{
    public static Command Create()
    {
        var target = new Argument<string>("TARGET") { Description = "A ticket, a print, or a folder of prints." };
        var raw = new Option<string[]>("--raw")
        {
            Description = "Look for raw files in this folder and all below it, whatever they are called now; what is not there is looked for around the target. May be given more than once.",
            HelpName = "FOLDER",
        };
        var folder = new Option<string?>("--out") { Description = "Keep the new prints in this folder. Without it they are compared and thrown away.", HelpName = "FOLDER" };
        var threads = OutputOptions.ThreadCount();
        var json = new Option<bool>("--json") { Description = "Write the result as JSON to standard output; nothing else goes there." };
        var quiet = new Option<bool>("--quiet") { Description = "No progress and no table; only the exit code and what went wrong." };
        var command = new Command("reprint", "Rebuild prints from the recipe inside them and check that they come out the same.") { target, raw, folder, threads, json, quiet };
        var reading = new ReadingOption();
        reading.AddTo(command);
        Guard.Run(command, (parsed, cancel) => UnfinishedSets.Tell([parsed.GetRequiredValue(target)], () =>
        {
            var options = new ReprintOptions { RawFolders = parsed.GetValue(raw) ?? [], OutFolder = parsed.GetValue(folder), Threads = parsed.GetValue(threads), Reading = reading.Of(parsed) };
            var report = ProgressDisplay.Run(
                !parsed.GetValue(quiet) && !parsed.GetValue(json),
                progress => Reprinter.Reprint(parsed.GetRequiredValue(target), options, new ToldProgress(progress), cancel));
            if (parsed.GetValue(json))
            {
                ReprintJson.Write(Terminal.Json(), report);
            }
            else if (!parsed.GetValue(quiet))
            {
                ReprintScreen.Write(report, parsed.GetValue(folder));
            }

            return report.IsIdentical ? ExitCode.Done : ExitCode.Findings;
        }), writes: parsed => parsed.GetValue(folder) is not null);
        return command;
    }
}
