using System.CommandLine;
using DrumPrint.Checking;
using DrumPrint.Cli.Output;

namespace DrumPrint.Cli.Commands;

/// <summary><c>check CHAIN|FOLDER</c>: looks for what goes wrong before and after a print.</summary>
internal static class CheckCommand
{
    public static Command Create()
    {
        var songs = new SongList("check", new Argument<string[]>("CHAIN|FOLDER") { Description = "A chain file, with its prints where there are some; or a folder of sound files: raw tracks, or prints somebody sent. Or those of many songs." });
        var prints = new Option<string?>("--prints") { Description = "Folder of the chain's prints; without it, prints beside the chain.", HelpName = "FOLDER" };
        var page = new Option<string?>("--page") { Description = "Also write a page with a picture of the sound at each place: one HTML file.", HelpName = "FILE" };
        var threads = OutputOptions.ThreadCount();
        var json = new Option<bool>("--json") { Description = "Write the findings as JSON to standard output; nothing else goes there." };
        var quiet = new Option<bool>("--quiet") { Description = "No progress and no table; the exit code tells." };
        var command = new Command("check", "Check raw tracks, chain and prints for what goes wrong in a hand-over.") { songs.Argument, prints, page, threads, json, quiet };
        songs.AddTo(command);
        var reading = new ReadingOption();
        reading.AddTo(command);
        Guard.Run(command, (parsed, cancel) =>
        {
            var (policy, isJson, isQuiet) = (reading.Of(parsed), parsed.GetValue(json), parsed.GetValue(quiet));
            songs.ForOneOnly(parsed, prints, page);
            return songs.Each(parsed, (isJson, isQuiet), One, parsed.GetValue(prints), policy, writes: false, cancel);

            int One(string path, bool isOneOfMany)
            {
                NamedPlace.MustExist(path);
                var output = new CheckOutput(parsed.GetValue(page), isJson && !isOneOfMany, isQuiet || (isJson && isOneOfMany));
                var options = new CheckOptions { Reading = policy, Prints = parsed.GetValue(prints), Threads = parsed.GetValue(threads), HasPictures = parsed.GetValue(page) is not null };
                var report = output.Run(progress => Checker.Check(path, options, progress, cancel));
                output.Tell(report);
                return report.NeedsALook ? ExitCode.Findings : ExitCode.Done;
            }
        }, writes: parsed => parsed.GetValue(page) is not null);
        return command;
    }
}
