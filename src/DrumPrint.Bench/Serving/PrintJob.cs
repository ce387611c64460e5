using System.Diagnostics;
using DrumPrint.Bench.Messages;
using DrumPrint.Chains;
using DrumPrint.Files;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;

namespace DrumPrint.Bench.Serving;

/// <summary>Prints the song as the command does, beside what plays.</summary>
/// <param name="reading">Which files the chain may name.</param>
/// <param name="guard">Turns what goes wrong into words.</param>
/// <param name="progress">Told how far it is.</param>
/// <param name="printed">Told what came of it.</param>
internal sealed class PrintJob(ReadPolicy reading, Action<int, Action> guard, Action<ProgressMessage> progress, Action<PrintedMessage> printed)
{
    private CancellationTokenSource? _running;

    /// <exception cref="UsageException">One is running already.</exception>
    public void Begin(Chain chain)
    {
        var running = new CancellationTokenSource();
        if (Interlocked.CompareExchange(ref _running, running, null) is not null)
        {
            throw new UsageException("A print is running already.");
        }

        _ = Task.Run(() =>
        {
            guard(0, () => Print(chain, running.Token));
            Volatile.Write(ref _running, null);
            progress(new ProgressMessage("", 1));
        });
    }

    public void Stop() => Volatile.Read(ref _running)?.Cancel();

    private void Print(Chain chain, CancellationToken cancel)
    {
        var options = new PrintOptions { Reading = reading, Store = StoreOptions.Beside(chain.Path) };
        var report = SessionPrinter.Print(chain, options, new ToPage(p => progress(new ProgressMessage(p.Activity, Math.Round(p.Part, 3)))), cancel);
        printed(new PrintedMessage(report.OutFolder, [.. Told(report)]));
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

    // Ten times a second is enough for an eye.
    private sealed class ToPage(Action<PrintProgress> tell) : IProgress<PrintProgress>
    {
        private long _last;

        public void Report(PrintProgress value)
        {
            if (Stopwatch.GetElapsedTime(_last).TotalMilliseconds >= 100)
            {
                _last = Stopwatch.GetTimestamp();
                tell(value);
            }
        }
    }
}
