using System.CommandLine;
using DrumPrint.Beginning;
using DrumPrint.Cli.Output;
using DrumPrint.Files;

namespace DrumPrint.Cli.Commands;

/// <summary><c>begin FOLDER</c>: from a folder of takes to a chain that prints.</summary>
internal static class BeginCommand
{
    public static Command Create()
    {
        var folder = new Argument<string>("FOLDER") { Description = "Folder of the raw files, or the folder around theirs." };
        var explain = new Option<bool>("--explain") { Description = "Also tell what was heard of every file." };
        var called = new Option<string[]>("--called")
        {
            Description = "Say what files are whose names do not, each as FILE=NAME: \"0003.wav=snare top\" \"0004.wav=oh l\". A channel of a file: \"take.wav#7=hat\".",
            AllowMultipleArgumentsPerToken = true,
            HelpName = "FILE=NAME",
        };
        var json = new Option<bool>("--json") { Description = "Write the result as JSON to standard output; nothing else goes there." };
        var quiet = new Option<bool>("--quiet") { Description = "No progress and no table; only what went wrong." };
        var command = new Command(
            "begin",
            "Listen to a folder of raw files and write a chain that prints at once; no file is replaced.")
        {
            folder, called, explain, json, quiet,
        };
        Guard.Run(
            command,
            (parsed, cancel) =>
            {
                var isShown = !parsed.GetValue(quiet) && !parsed.GetValue(json);
                var reading = UserSettings.Read().Policy;
                var begun = ProgressDisplay.Run(isShown, progress => Beginner.Begin(parsed.GetRequiredValue(folder), progress, cancel, reading, parsed.GetValue(called) ?? []));
                if (parsed.GetValue(json))
                {
                    BeginJson.Write(Terminal.Json(), begun);
                }
                else if (isShown)
                {
                    BeginScreen.Write(begun, parsed.GetValue(explain));
                }

                return begun.LeftOut.Count == 0 ? ExitCode.Done : ExitCode.Findings;
            },
            _ => true);
        return command;
    }
}
