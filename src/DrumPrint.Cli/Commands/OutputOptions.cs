using System.CommandLine;
using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Checking;
using DrumPrint.Cli.Output;
using DrumPrint.Printing;
using DrumPrint.Printing.Folder;
using DrumPrint.Session;

namespace DrumPrint.Cli.Commands;

/// <summary>What <c>print</c> and <c>demo</c> share: how to print and how to tell of it.</summary>
internal sealed class OutputOptions
{
    public Option<string?> Out { get; } = new("--out") { Description = "Folder to write to. Without it: prints/ beside the chain file (excerpt/ for an excerpt).", HelpName = "FOLDER" };

    public Option<int?> Threads { get; } = ThreadCount();

    public Option<string?> Bits { get; } = BitsOption.Create("Word length. Without it: what the chain says.");

    public Option<bool> Json { get; } = new("--json") { Description = "Write the result as JSON to standard output; nothing else goes there." };

    public Option<bool> Quiet { get; } = new("--quiet") { Description = "No progress and no table; only what went wrong, what is gone, what was lowered, and what to look at." };

    public Option<bool> All { get; } = new("--all") { Description = "Show the figures of every print, also of those that were there and are unchanged." };

    public Option<bool> Profile { get; } = new("--profile") { Description = "Show where the time went." };

    public Option<bool> NoStore { get; } = new("--no-store") { Description = "Render everything, and keep nothing for the next run." };

    public Option<bool> Anew { get; } = new("--anew") { Description = "Render everything, whatever is there already; the store is filled anew." };

    public Option<double?> StoreGigabytes { get; } = new("--store-gb") { Description = "Most the store beside the chain may hold; what was not used for longest goes first. Without it: 4.", HelpName = "GB" };

    public OutputOptions()
    {
        StoreGigabytes.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && !(double.TryParse(result.Tokens[0].Value, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var size) && size is > 0 and <= 1e6))
            {
                result.AddError("--store-gb takes a number of gigabytes above 0, such as 4 or 0.5.");
            }
        });
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
        command.Options.Add(All);
        command.Options.Add(Profile);
        command.Options.Add(NoStore);
        command.Options.Add(Anew);
        command.Options.Add(StoreGigabytes);
        command.Validators.Add(result =>
        {
            if (result.GetValue(NoStore) && result.GetValue(Anew))
            {
                result.AddError("--no-store keeps nothing, --anew fills the store: give one of them.");
            }
        });
    }

    public PrintOptions Apply(ParseResult parsed, string chainPath, PrintOptions options) => options with
    {
        Store = parsed.GetValue(NoStore)
            ? null
            : StoreOptions.Beside(chainPath) with
            {
                Anew = parsed.GetValue(Anew),
                CapBytes = parsed.GetValue(StoreGigabytes) is { } size ? (long)(size * (1L << 30)) : StoreOptions.DefaultCapBytes,
            },
        Profiles = parsed.GetValue(Profile),
        Threads = parsed.GetValue(Threads),
        Encoding = BitsOption.Of(parsed, Bits),
    };

    /// <summary>Whether progress is shown.</summary>
    public bool ShowsProgress(ParseResult parsed) => !parsed.GetValue(Quiet) && !parsed.GetValue(Json);

    // The prints have their names; whoever stops now is still told of them.
    private static IReadOnlyList<string> Quick(Chain chain, PrintOptions options, CancellationToken cancel)
    {
        try
        {
            return QuickCheck.Faults(chain, options.Reading, cancel);
        }
        catch (OperationCanceledException)
        {
            return [];
        }
    }

    /// <summary>Prints and tells of it.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="chain">The chain.</param>
    /// <param name="options">How it is printed.</param>
    /// <param name="isOneOfMany">Whether other songs follow: then little is said of each, unless all was asked for.</param>
    /// <param name="cancel">Stops it.</param>
    public int Print(ParseResult parsed, Chain chain, PrintOptions options, bool isOneOfMany, CancellationToken cancel)
    {
        var isJson = parsed.GetValue(Json) && !isOneOfMany;
        var isQuiet = parsed.GetValue(Quiet) || (isOneOfMany && !parsed.GetValue(All));

        // While it can still be stopped.
        if (ReturnToVersion.Of(chain, options)?.Warning is { } warning)
        {
            Terminal.SayLines(warning);
        }

        var report = ProgressDisplay.Run(
            ShowsProgress(parsed),
            progress => SessionPrinter.Print(chain, options, new ToldProgress(progress), cancel));
        report = report with { Findings = [.. report.Findings, .. Quick(chain, options, cancel)] };
        if (isJson)
        {
            ReportJson.Write(Terminal.Json(), report);
        }
        else if (!isQuiet)
        {
            ReportScreen.Write(report, parsed.GetValue(All));
        }

        if (parsed.GetValue(Profile))
        {
            ProfileScreen.Write(report);
        }

        if (!isQuiet)
        {
            foreach (var note in report.StoreNotes)
            {
                Terminal.Say(note);
            }
        }

        // On the screen they stand below the table.
        foreach (var loss in isQuiet || isJson ? report.Losses : [])
        {
            Terminal.Say(loss);
        }

        if (isQuiet && report.Lowered is { } lowered)
        {
            Terminal.Say(lowered);
        }

        foreach (var line in FindingLines.Of(report))
        {
            Terminal.Say(line);
        }

        return report.Findings.Count > 0 ? ExitCode.Findings : ExitCode.Done;
    }
}
