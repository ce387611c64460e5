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
    private readonly Slot[] _slots;
    private readonly PriorityQueue<Slot, (long Block, int Order)> _ready = new();
    private readonly long _blocks;
    private readonly Action<double>? _progress;
    private long _left;
    private ExceptionDispatchInfo? _failure;

    private BlockScheduler(IReadOnlyList<Node> nodes, long blocks, Action<double>? progress)
    {
        _blocks = blocks;
        _progress = progress;
        _left = nodes.Count * blocks;
        var slots = new Dictionary<Node, Slot>();
        foreach (var node in nodes)
        {
            var slot = new Slot(node, slots.Count, [.. node.Inputs.Distinct().Select(i => slots[i])]);
            slots.Add(node, slot);
            foreach (var input in slot.Inputs)
            {
                input.Consumers.Add(slot);
            }

            // Blocks that an input made in another's memory must be read before that one makes new ones there.
            foreach (var host in node.Inputs.Distinct().SelectMany(Hosts).Distinct())
            {
                slots[host].Consumers.Add(slot);
                slot.Frees.Add(slots[host]);
            }
        }

        _slots = [.. slots.Values];
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
            using var scheduler = new BlockScheduler(nodes, blocks, progress);
            scheduler.Run(threads, cancel);
        }
    }

    public void Dispose() => _work.Dispose();

    private void Run(int threads, CancellationToken cancel)
    {
        foreach (var slot in _slots)
        {
            Offer(slot);
        }

        var helpers = new Thread[threads - 1];
        for (var i = 0; i < helpers.Length; i++)
        {
            helpers[i] = new Thread(() => Work(cancel)) { IsBackground = true, Name = "render" };
            helpers[i].Start();
        }

        Work(cancel);
        foreach (var helper in helpers)
        {
            helper.Join();
        }

        _failure?.Throw();
        cancel.ThrowIfCancellationRequested();
    }

    private void Work(CancellationToken cancel)
    {
        while (true)
        {
            // Not cancelled while waiting: the thread that runs the next block sees the request and wakes the others.
            _work.Wait(CancellationToken.None);
            Slot slot;
            lock (_gate)
            {
                if (_left == 0 || _failure is not null || !_ready.TryDequeue(out slot!, out _))
                {
                    // Wake the next thread, so that all of them leave.
                    _work.Release();
                    return;
                }
            }

            try
            {
                cancel.ThrowIfCancellationRequested();
                var start = Stopwatch.GetTimestamp();
                slot.Node.Process(slot.Done);
                slot.Node.BusyTicks += Stopwatch.GetTimestamp() - start;
                Finish(slot);
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

    private void Finish(Slot slot)
    {
        double part;
        lock (_gate)
        {
            slot.Done++;
            slot.IsQueued = false;
            _left--;
            Offer(slot);
            foreach (var consumer in slot.Consumers)
            {
                Offer(consumer);
            }

            foreach (var input in slot.Inputs)
            {
                Offer(input);
            }

            foreach (var host in slot.Frees)
            {
                Offer(host);
            }

            part = 1 - ((double)_left / (_slots.Length * _blocks));
            if (_left == 0)
            {
                _work.Release();
            }
        }

        if (slot.Order == _slots.Length - 1)
        {
            _progress?.Invoke(part);
        }
    }

    private static IEnumerable<Node> Hosts(Node node)
    {
        for (var host = node.Host; host is not null; host = host.Host)
        {
            yield return host;
        }
    }

    // Queues a slot whose next block can run. Called under the lock.
    private void Offer(Slot slot)
    {
        if (slot.IsQueued || slot.Done == _blocks)
        {
            return;
        }

        foreach (var input in slot.Inputs)
        {
            if (input.Done <= slot.Done)
            {
                return;
            }
        }

        foreach (var consumer in slot.Consumers)
        {
            if (slot.Done - consumer.Done >= Node.RingBlocks)
            {
                return;
            }
        }

        slot.IsQueued = true;
        _ready.Enqueue(slot, (slot.Done, slot.Order));
        _work.Release();
    }

    private sealed class Slot(Node node, int order, Slot[] inputs)
    {
        public Node Node { get; } = node;

        public int Order { get; } = order;

        public Slot[] Inputs { get; } = inputs;

        /// <summary>Slots that must have read a block before its memory is used again.</summary>
        public List<Slot> Consumers { get; } = [];

        /// <summary>Slots other than inputs that may go on once this one has read a block.</summary>
        public List<Slot> Frees { get; } = [];

        public long Done { get; set; }

        public bool IsQueued { get; set; }
    }
}
