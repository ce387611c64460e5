using System.Diagnostics.CodeAnalysis;

namespace DrumPrint.Bench.Serving;

/// <summary>What one thread does in turn, as others ask for it.</summary>
/// <remarks>The thread sleeps at once when there is nothing to do, as that of the sound does.</remarks>
internal sealed class WorkQueue
{
    private readonly object _gate = new();
    private readonly Queue<Action> _actions = new();
    private bool _isClosed;

    /// <summary>Asks for something; nothing is taken once the queue is closed.</summary>
    public void Add(Action action)
    {
        lock (_gate)
        {
            if (!_isClosed)
            {
                _actions.Enqueue(action);
                Monitor.Pulse(_gate);
            }
        }
    }

    /// <summary>Takes nothing more; what was asked for is still done.</summary>
    public void Close()
    {
        lock (_gate)
        {
            _isClosed = true;
            Monitor.Pulse(_gate);
        }
    }

    /// <summary>Waits for the next; false at the end.</summary>
    public bool Next([NotNullWhen(true)] out Action? action)
    {
        lock (_gate)
        {
            while (_actions.Count == 0 && !_isClosed)
            {
                Monitor.Wait(_gate);
            }

            return _actions.TryDequeue(out action);
        }
    }
}
