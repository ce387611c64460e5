using System.Diagnostics;
using DrumPrint.Bench.Messages;
using DrumPrint.Live;
using DrumPrint.Printing;
using DrumPrint.Session;

namespace DrumPrint.Bench.Serving;

/// <summary>Does one long thing at a time beside what plays, and tells how far it is.</summary>
/// <param name="name">What the page calls it.</param>
/// <param name="guard">Turns what goes wrong into words.</param>
/// <param name="progress">Told how far it is.</param>
internal sealed class BackgroundJob(string name, Action<int, Action> guard, Action<ProgressMessage> progress)
{
    private CancellationTokenSource? _running;

    /// <exception cref="UsageException">One is running already.</exception>
    public void Begin(Action<IProgress<PrintProgress>, CancellationToken> work)
    {
        var running = new CancellationTokenSource();
        if (Interlocked.CompareExchange(ref _running, running, null) is not null)
        {
            throw new UsageException($"A {name} is running already.");
        }

        _ = SideThread.Run(() =>
        {
            try
            {
                guard(0, () => work(new ToPage(p => progress(new ProgressMessage(name, p.Activity, Math.Round(p.Part, 3)))), running.Token));
            }
            finally
            {
                Volatile.Write(ref _running, null);
                progress(new ProgressMessage(name, "", 1));
            }
        });
    }

    public void Stop() => Volatile.Read(ref _running)?.Cancel();

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
