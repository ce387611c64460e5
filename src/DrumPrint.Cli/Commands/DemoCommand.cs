using System.CommandLine;
using DrumPrint.Chains.Reading;
using DrumPrint.Cli.Output;
using DrumPrint.Demo;
using DrumPrint.Demo.Recording;
using DrumPrint.Session;

namespace DrumPrint.Cli.Commands;

/// <summary><c>demo</c>: writes the invented session and prints it.</summary>
internal static class DemoCommand
{
    public static Command Create()
    {
        var folder = new Argument<string>("FOLDER") { Description = "Where to write it.", DefaultValueFactory = _ => "SlowFerry" };
        var full = new Option<bool>("--full") { Description = "The whole song, 200 s (about 0.9 GB with prints, and 0.8 GB more in the store), instead of a cut of about 24 s." };
        var noPrint = new Option<bool>("--no-print") { Description = "Write raw tracks, impulses and chain only." };
        var output = new OutputOptions();
        var command = new Command("demo", "Write an invented session (21 raw tracks, impulses, a chain file) and print it.") { folder, full, noPrint };
        output.AddTo(command);
        Guard.Run(command, (parsed, cancel) =>
        {
            var files = ProgressDisplay.Run(
                output.ShowsProgress(parsed),
                progress => DemoSession.Write(parsed.GetRequiredValue(folder), parsed.GetValue(full), new Progress(progress), cancel));
            foreach (var note in files.Notes)
            {
                Terminal.Say(note);
            }

            if (parsed.GetValue(noPrint))
            {
                if (output.ShowsProgress(parsed))
                {
                    Terminal.Tell($"Written: {files.Chain}. Print it with: drumprint print {files.Chain}");
                }

                return ExitCode.Done;
            }

            var chain = ChainReader.Read(files.Chain);
            return output.Print(parsed, chain, output.Apply(parsed, files.Chain, new PrintOptions()), cancel);
        }, writes: _ => true);
        return command;
    }

    private sealed class Progress(Action<string, double> report) : IProgress<DemoProgress>
    {
        public void Report(DemoProgress value) => report(value.Task, value.Fraction);
    }
}
