using System.CommandLine;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Cli.Output;
using DrumPrint.Prints;

namespace DrumPrint.Cli.Commands;

/// <summary>What <c>print</c> and <c>demo</c> share: how to print and how to tell of it.</summary>
internal sealed class OutputOptions
{
    public Option<string?> Out { get; } = new("--out") { Description = "Folder to write to. Without it: prints/ beside the chain file (excerpt/ for an excerpt).", HelpName = "FOLDER" };

    public Option<int?> Threads { get; } = ThreadCount();

    public Option<string?> Bits { get; } = new("--bits") { Description = "Word length. Without it: what the chain says.", HelpName = "16|24|32f" };

    public Option<bool> Json { get; } = new("--json") { Description = "Write the result as JSON to standard output; nothing else goes there." };

    public Option<bool> Quiet { get; } = new("--quiet") { Description = "No progress and no table; only what went wrong." };

    public Option<bool> Profile { get; } = new("--profile") { Description = "Show where the time went." };

    public OutputOptions()
    {
        Bits.AcceptOnlyFromAmong("16", "24", "32f");
    }

    /// <summary>The option that names a number of threads.</summary>
    public static Option<int?> ThreadCount()
    {
        var option = new Option<int?>("--threads") { Description = "Number of threads. Without it: one for each processor core. Never changes a bit of the result.", HelpName = "N" };
        option.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && int.TryParse(result.Tokens[0].Value, out var n) && n is < 1 or > 1024)
            {
                result.AddError("--threads takes a whole number from 1 to 1024.");
            }
        });
        return option;
    }

    public void AddTo(Command command)
    {
        command.Options.Add(Threads);
        command.Options.Add(Bits);
        command.Options.Add(Json);
        command.Options.Add(Quiet);
        command.Options.Add(Profile);
    }

    public PrintOptions Apply(ParseResult parsed, PrintOptions options) => options with
    {
        Threads = parsed.GetValue(Threads),
        Encoding = parsed.GetValue(Bits) switch
        {
            "16" => SampleEncoding.Pcm16,
            "24" => SampleEncoding.Pcm24,
            "32f" => SampleEncoding.Float32,
            _ => null,
        },
    };

    /// <summary>Whether progress is shown.</summary>
    public bool ShowsProgress(ParseResult parsed) => !parsed.GetValue(Quiet) && !parsed.GetValue(Json);

    /// <summary>Prints and tells of it.</summary>
    public int Print(ParseResult parsed, Chain chain, PrintOptions options, CancellationToken cancel)
    {
        var report = ProgressDisplay.Run(
            ShowsProgress(parsed),
            progress => SessionPrinter.Print(chain, options, new Progress(progress), cancel));
        if (parsed.GetValue(Json))
        {
            ReportJson.Write(Console.OpenStandardOutput(), report);
        }
        else if (!parsed.GetValue(Quiet))
        {
            ReportScreen.Write(report);
        }

        if (parsed.GetValue(Profile))
        {
            ProfileScreen.Write(report);
        }

        foreach (var finding in report.Findings)
        {
            Console.Error.WriteLine($"To look at: {finding}");
        }

        return report.Findings.Count > 0 ? ExitCode.Findings : ExitCode.Done;
    }

    // Unlike System.Progress this one reports on the spot, from whichever thread.
    internal sealed class Progress(Action<string, double> report) : IProgress<PrintProgress>
    {
        public void Report(PrintProgress value) => report(value.Activity, value.Part);
    }
}
