using System.Runtime.ExceptionServices;

namespace DrumPrint.Audio;

/// <summary>A step that a pool thread may take before it is needed. Whoever comes first takes it: a pool with no thread to
/// spare never keeps anyone waiting for a step that has not begun.</summary>
internal sealed class EarlyStep(Action step) : IThreadPoolWorkItem, IDisposable
{
    private const int Idle = 0;
    private const int Offered = 1;
    private const int Taken = 2;

    private readonly ManualResetEventSlim _isDone = new();
    private int _state;
    private ExceptionDispatchInfo? _failure;

    /// <summary>Offers the step to the pool. The step before it must be complete.</summary>
    public void Begin()
    {
        _failure = null;
        _isDone.Reset();
        Volatile.Write(ref _state, Offered);
        ThreadPool.UnsafeQueueUserWorkItem(this, preferLocal: false);
    }

    /// <summary>Makes sure the step is done, and throws what it threw. Does nothing when none has begun.</summary>
    public void Complete()
    {
        if (_state == Idle)
        {
            return;
        }

        if (!TryTake())
        {
            _isDone.Wait();
        }

        _state = Idle;
        _failure?.Throw();
    }

    /// <summary>Withdraws an offer that nobody took, and waits for a step under way.</summary>
    public void Dispose()
    {
        if (Interlocked.CompareExchange(ref _state, Idle, Offered) == Taken)
        {
            _isDone.Wait();
            _state = Idle;
        }

        _isDone.Dispose();
    }

    /// <summary>Called by the pool; an offer that was taken meanwhile is passed over.</summary>
    public void Execute() => TryTake();

    private bool TryTake()
    {
        if (Interlocked.CompareExchange(ref _state, Taken, Offered) != Offered)
        {
            return false;
        }

        try
        {
            step();
        }
#pragma warning disable CA1031 // Passed on, whatever it is, to the thread that needs the step.
        catch (Exception e)
#pragma warning restore CA1031
        {
            _failure = ExceptionDispatchInfo.Capture(e);
        }

        _isDone.Set();
        return true;
    }
}
