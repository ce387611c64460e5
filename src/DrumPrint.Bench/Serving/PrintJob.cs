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

        // Many may have one reason, which is told once.
        foreach (var alike in report.Prints.Where(p => !p.IsUnchanged).GroupBy(p => p.Because.Count > 0 ? string.Join("; ", p.Because) : "printed"))
        {
            yield return $"{string.Join(", ", alike.Select(p => p.FileName))}: {alike.Key}.";
        }

        foreach (var sentence in report.Notes.Concat(report.Findings))
        {
            yield return sentence;
        }
    }
}
