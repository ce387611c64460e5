using System.Diagnostics;

namespace DrumPrint.Fuzz.Driver;

/// <summary>Ends the process when one input takes too long; the input is then found by the next run.</summary>
internal sealed class Watch : IDisposable
{
    /// <summary>Seconds of the processor's time that are a hang.</summary>
    public const int HangSeconds = 20;

    // A reader that waits for something uses no processor.
    private const int WaitSeconds = 600;

    private readonly Timer _timer;
    private long _begun;
    private long _looked;
    private TimeSpan _used;

    public Watch() => _timer = new Timer(_ => Look(), null, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(1));

    public void Begin() => Volatile.Write(ref _begun, Stopwatch.GetTimestamp());

    /// <summary>Ends the watch over one input.</summary>
    /// <returns>How long it took.</returns>
    public TimeSpan End() => Stopwatch.GetElapsedTime(Interlocked.Exchange(ref _begun, 0));

    public void Dispose() => _timer.Dispose();

    private void Look()
    {
        var begun = Volatile.Read(ref _begun);
        if (begun != _looked)
        {
            (_looked, _used) = (begun, Environment.CpuUsage.TotalTime);
        }
        else if (begun != 0 && ((Environment.CpuUsage.TotalTime - _used).TotalSeconds > HangSeconds || Stopwatch.GetElapsedTime(begun).TotalSeconds > WaitSeconds))
        {
            Console.Error.WriteLine("One input takes too long; the next run names it.");
            Environment.Exit(4);
        }
    }
}
