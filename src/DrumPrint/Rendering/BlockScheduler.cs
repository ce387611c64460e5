using System.Diagnostics;
using System.Runtime.ExceptionServices;

namespace DrumPrint.Rendering;

/// <summary>
/// Runs a graph of nodes over a number of blocks on several threads. A node's block runs once its inputs have made theirs
/// and its consumers have left room; what is computed never depends on the order.
/// </summary>
internal sealed class BlockScheduler : IDisposable
{
    private readonly Lock _gate = new();
    private readonly SemaphoreSlim _work = new(0);
    private readonly BlockQueue _queue;
    private readonly BlockMemory _memory;
    private readonly Action<double>? _progress;
    private readonly int _lastOrder;
    private int _offered;
    private int _finishing;
    private ExceptionDispatchInfo? _failure;

    private BlockScheduler(IReadOnlyList<Node> nodes, long blocks, int threads, Action<double>? progress)
    {
        _memory = new BlockMemory(threads);
        _queue = new BlockQueue(nodes, blocks, (node, block) => node.Release(block, _memory, _finishing));
        _lastOrder = nodes.Count - 1;
        _progress = progress;
    }

    /// <summary>Runs every node for every block.</summary>
    /// <param name="nodes">Nodes, each after its inputs.</param>
    /// <param name="blocks">Number of blocks.</param>
    /// <param name="threads">Number of threads, 1 or more.</param>
    /// <param name="progress">Told the part done, 0 to 1, now and then, from any thread.</param>
    /// <param name="cancel">Stops the run.</param>
    /// <exception cref="OperationCanceledException">The run was stopped.</exception>
    public static void Run(IReadOnlyList<Node> nodes, long blocks, int threads, Action<double>? progress, CancellationToken cancel)
    {
        if (blocks > 0 && nodes.Count > 0)
        {
            using var scheduler = new BlockScheduler(nodes, blocks, threads, progress);
            scheduler.Run(threads, cancel);
        }
    }

    public void Dispose() => _work.Dispose();

    private void Run(int threads, CancellationToken cancel)
    {
        lock (_gate)
        {
            Announce();
        }

        var helpers = new Thread[threads - 1];
        for (var i = 0; i < helpers.Length; i++)
        {
            var worker = i + 1;
            helpers[i] = new Thread(() => Work(worker, cancel)) { IsBackground = true, Name = "render" };
            helpers[i].Start();
        }

        Work(0, cancel);
        foreach (var helper in helpers)
        {
            helper.Join();
        }

        _failure?.Throw();
        cancel.ThrowIfCancellationRequested();
    }

    private void Work(int worker, CancellationToken cancel)
    {
        while (true)
        {
            // Not cancelled while waiting: the thread that runs the next block sees the request and wakes the others.
            _work.Wait(CancellationToken.None);
            BlockQueue.Slot slot;
            lock (_gate)
            {
                if (_queue.Left == 0 || _failure is not null || !_queue.TryTake(out slot))
                {
                    // Wake the next thread, so that all of them leave.
                    _work.Release();
                    return;
                }

                _offered--;
                slot.Node.Claim(slot.Done, _memory, worker);
            }

            try
            {
                cancel.ThrowIfCancellationRequested();
                var start = Stopwatch.GetTimestamp();
                slot.Node.Process(slot.Done);
                slot.Node.BusyTicks += Stopwatch.GetTimestamp() - start;
                Finish(slot, worker);
            }
#pragma warning disable CA1031 // Whatever stops one thread is thrown again on the thread that asked for the run.
            catch (Exception e)
#pragma warning restore CA1031
            {
                lock (_gate)
                {
                    _failure ??= ExceptionDispatchInfo.Capture(e);
                }

                _work.Release();
                return;
            }
        }
    }

    private void Finish(BlockQueue.Slot slot, int worker)
    {
        double part;
        lock (_gate)
        {
            _finishing = worker;
            _queue.Finish(slot);
            Announce();
            part = 1 - ((double)_queue.Left / _queue.Total);
            if (_queue.Left == 0)
            {
                _work.Release();
            }
        }

        if (slot.Order == _lastOrder)
        {
            _progress?.Invoke(part);
        }
    }

    // Wakes a thread for each block that can run and has not been announced. Called under the lock.
    private void Announce()
    {
        var more = _queue.Ready - _offered;
        if (more > 0)
        {
            _offered += more;
            _work.Release(more);
        }
    }
}
