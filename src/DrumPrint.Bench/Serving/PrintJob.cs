using DrumPrint.Bench.Messages;
using DrumPrint.Chains;
using DrumPrint.Files;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;

namespace DrumPrint.Bench.Serving;

/// <summary>Prints the song as the command does.</summary>
internal static class PrintJob
{
    public static PrintedMessage Print(Chain chain, ReadPolicy reading, IProgress<PrintProgress> progress, CancellationToken cancel)
    {
        var options = new PrintOptions { Reading = reading, Store = StoreOptions.Beside(chain.Path) };
        var report = SessionPrinter.Print(chain, options, progress, cancel);
        return new PrintedMessage(report.OutFolder, [.. Told(report)]);
    }

    private static IEnumerable<string> Told(PrintReport report)
    {
        if (report.Prints.All(p => p.IsUnchanged))
        {
            yield return "Every file was there already, as the chain has it.";
        }

        foreach (var print in report.Prints.Where(p => !p.IsUnchanged))
        {
            yield return $"{print.FileName}: {(print.Because.Count > 0 ? string.Join("; ", print.Because) : "printed")}.";
        }

        foreach (var sentence in report.Notes.Concat(report.Findings))
        {
            yield return sentence;
        }
    }
}
