using System.CommandLine;
using DrumPrint.Chains.Reading;
using DrumPrint.Cli.Output;
using DrumPrint.Demo;
using DrumPrint.Demo.Faults;
using DrumPrint.Demo.Recording;
using DrumPrint.Session;

namespace DrumPrint.Cli.Commands;

/// <summary><c>demo</c>: writes the invented session and prints it.</summary>
internal static class DemoCommand
{
    private const string Folder = "SlowFerry";
    private const string DamagedFolder = "SlowFerry-with-faults";

    public static Command Create()
    {
        var folder = new Argument<string?>("FOLDER") { Description = $"Where to write it. Without it: {Folder}, and {DamagedFolder} with --with-faults.", Arity = ArgumentArity.ZeroOrOne };
        var full = new Option<bool>("--full") { Description = "The whole song, 200 s (about 0.9 GB with prints, and 0.8 GB more in the store), instead of a cut of about 24 s." };
        var noPrint = new Option<bool>("--no-print") { Description = "Write raw tracks, impulses and chain only." };
        var withFaults = new Option<bool>("--with-faults") { Description = $"Damage it on purpose, to see what check finds: wrong raw files, a wrong chain, spoiled prints. {FaultyDemo.ListName} in its folder names every fault. Goes into a new folder only; keeps no store." };
        var output = new OutputOptions();
        var command = new Command("demo", "Write an invented session (21 raw tracks, impulses, a chain file) and print it.") { folder, full, noPrint, withFaults };
        output.AddTo(command);
        foreach (var option in new Option[] { output.Bits, output.Json, output.All, output.Profile, output.NoStore, output.Anew, output.StoreGigabytes })
        {
            command.Validators.Add(result =>
            {
                if (result.GetValue(withFaults) && result.GetResult(option) is { Implicit: false })
                {
                    result.AddError($"{option.Name} says how to print and to tell of it; a damaged session is printed one way only. Leave it out beside --with-faults.");
                }
            });
        }

        Guard.Run(command, (parsed, cancel) =>
        {
            if (parsed.GetValue(withFaults))
            {
                return Damaged(parsed.GetValue(folder) ?? DamagedFolder, parsed.GetValue(full), !parsed.GetValue(noPrint), parsed.GetValue(output.Threads), output.ShowsProgress(parsed), cancel);
            }

            var files = ProgressDisplay.Run(
                output.ShowsProgress(parsed),
                progress => DemoSession.Write(parsed.GetValue(folder) ?? Folder, parsed.GetValue(full), new Progress(progress), cancel));
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
            return output.Print(parsed, chain, output.Apply(parsed, files.Chain, new PrintOptions()), isOneOfMany: false, cancel);
        }, writes: _ => true);
        return command;
    }

    // What is shown of it: that it is damaged, what is wrong, and where to go on.
    private static int Damaged(string folder, bool full, bool hasPrints, int? threads, bool shows, CancellationToken cancel)
    {
        var made = ProgressDisplay.Run(shows, progress => FaultyDemo.Write(folder, full, hasPrints, threads, new Progress(progress), cancel));
        if (shows)
        {
            FaultScreen.Write(made, hasPrints);
        }

        return ExitCode.Done;
    }

    private sealed class Progress(Action<string, double> report) : IProgress<DemoProgress>
    {
        public void Report(DemoProgress value) => report(value.Task, value.Fraction);
    }
}
