using System.CommandLine;
using DrumPrint.Carrying;
using DrumPrint.Cli.Output;
using DrumPrint.Printing;

namespace DrumPrint.Cli.Commands;

/// <summary><c>carry CHAIN --to FOLDER</c>: the same recipe and microphones for the next song.</summary>
internal static class CarryCommand
{
    public static Command Create()
    {
        var chain = new Argument<string>("CHAIN") { Description = "The chain file, or the folder that holds it and no other chain." };
        var to = new Option<string>("--to") { Description = "Folder of the next song's raw files, or the folder around theirs.", HelpName = "FOLDER", Required = true };
        var json = new Option<bool>("--json") { Description = "Write the result as JSON to standard output; nothing else goes there." };
        var quiet = new Option<bool>("--quiet") { Description = "No progress and no table; only what went wrong." };
        var command = new Command(
            "carry",
            "Carry a chain to the next song: the same recipe and microphones, the new takes; no file is replaced.")
        {
            chain, to, json, quiet,
        };
        var reading = new ReadingOption();
        reading.AddTo(command);
        Guard.Run(
            command,
            (parsed, cancel) =>
            {
                var isShown = !parsed.GetValue(quiet) && !parsed.GetValue(json);
                var carried = ProgressDisplay.Run(isShown, progress => Carrier.Carry(
                    SessionFolder.Chain(parsed.GetRequiredValue(chain)), parsed.GetRequiredValue(to), reading.Of(parsed), progress, cancel));
                if (parsed.GetValue(json))
                {
                    CarryJson.Write(Terminal.Json(), carried);
                }
                else if (isShown)
                {
                    CarryScreen.Write(carried);
                }

                return carried.IsWhole && carried.Moved.Count == 0 ? ExitCode.Done : ExitCode.Findings;
            },
            _ => true);
        return command;
    }
}
