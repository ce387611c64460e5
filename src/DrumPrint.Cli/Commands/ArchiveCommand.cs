using System.CommandLine;
using DrumPrint.Archiving;
using DrumPrint.Chains.Reading;
using DrumPrint.Cli.Output;
using DrumPrint.Printing;

namespace DrumPrint.Cli.Commands;

/// <summary><c>archive CHAIN --to FOLDER</c>: all that a reprint needs in ten years.</summary>
internal static class ArchiveCommand
{
    public static Command Create()
    {
        var chain = new Argument<string>("CHAIN") { Description = "The chain file that was printed, or the folder that holds it and no other chain." };
        var to = new Option<string>("--to") { Description = "The folder that archives go to; each version gets a folder of its own there, and none is ever overwritten.", HelpName = "FOLDER", Required = true };
        var prints = new Option<string?>("--prints") { Description = "Where the prints lie. Without it: the folder prints beside the chain.", HelpName = "FOLDER" };
        var json = new Option<bool>("--json") { Description = "Write the result as JSON to standard output; nothing else goes there." };
        var quiet = new Option<bool>("--quiet") { Description = "No progress and no words; only the exit code and what went wrong." };
        var command = new Command(
            "archive",
            "Put away all that the same prints need in ten years: raw tracks, impulses, chain, prints, ticket, and the recipe in plain words for other tools.")
        {
            chain, to, prints, json, quiet,
        };
        var reading = new ReadingOption();
        reading.AddTo(command);
        Guard.Run(command, (parsed, cancel) =>
        {
            var (isJson, isQuiet) = (parsed.GetValue(json), parsed.GetValue(quiet));
            var options = new ArchiveOptions { To = parsed.GetRequiredValue(to), PrintsFolder = parsed.GetValue(prints), Build = BuildText.Line };
            var session = ChainReader.Read(SessionFolder.Chain(parsed.GetRequiredValue(chain)), reading: reading.Of(parsed));
            var report = ProgressDisplay.Run(!isJson && !isQuiet, progress => Archiver.Archive(session, options, progress, cancel));
            if (isJson)
            {
                ArchiveOutput.Write(Terminal.Json(), report);
            }
            else if (!isQuiet)
            {
                ArchiveOutput.Write(report);
            }

            return ExitCode.Done;
        }, writes: _ => true);
        return command;
    }
}
