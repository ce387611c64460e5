namespace DrumPrint.Rendering;

/// <summary>Which blocks of which nodes can run: a node's next block once its inputs have made theirs and its consumers have
/// left room. Earlier blocks come first, then nodes in the order given. Not safe for several threads at once.</summary>
internal sealed class BlockQueue
{
    private readonly Slot[] _slots;
    private readonly PriorityQueue<Slot, (long Block, int Order)> _ready = new();
    private readonly long _blocks;
    private readonly Action<Node, long>? _release;

    /// <param name="nodes">Nodes, each after its inputs.</param>
    /// <param name="blocks">Number of blocks.</param>
    /// <param name="release">Told of each node's block once everybody has read it, in order.</param>
    public BlockQueue(IReadOnlyList<Node> nodes, long blocks, Action<Node, long>? release = null)
    {
        _blocks = blocks;
        _release = release;
        Total = nodes.Sum(n => Math.Max(0, blocks - n.FirstBlock));
        Left = Total;
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
        foreach (var slot in _slots)
        {
            Offer(slot);
        }
    }

    /// <summary>Blocks of all nodes.</summary>
    public long Total { get; }

    /// <summary>Blocks not yet finished.</summary>
    public long Left { get; private set; }

    /// <summary>Blocks that can run now.</summary>
    public int Ready => _ready.Count;

    /// <summary>Takes the first block that can run: the slot's <see cref="Slot.Done"/>.</summary>
    public bool TryTake(out Slot slot) => _ready.TryDequeue(out slot!, out _);

    /// <summary>Counts a block as made.</summary>
    public void Finish(Slot slot)
    {
        slot.Done++;
        slot.IsQueued = false;
        Left--;
        Release(slot);
        Offer(slot);
        foreach (var consumer in slot.Consumers)
        {
            Offer(consumer);
        }

        foreach (var input in slot.Inputs)
        {
            Release(input);
            Offer(input);
        }

        foreach (var host in slot.Frees)
        {
            Release(host);
            Offer(host);
        }
    }

    private static IEnumerable<Node> Hosts(Node node)
    {
        for (var host = node.Host; host is not null; host = host.Host)
        {
            yield return host;
        }
    }

    private void Release(Slot slot)
    {
        var read = Math.Min(slot.Done, slot.LeastRead());
        for (; slot.Released < read; slot.Released++)
        {
            _release?.Invoke(slot.Node, slot.Released);
        }
    }

    private void Offer(Slot slot)
    {
        if (slot.IsQueued || slot.Done >= _blocks)
        {
            return;
        }

        if (!slot.HasAllInputs() || slot.Done - slot.LeastRead() >= Node.RingBlocks)
        {
            return;
        }

        slot.IsQueued = true;
        _ready.Enqueue(slot, (slot.Done, slot.Order));
    }

    /// <summary>How far one node is.</summary>
    /// <remarks>Each time a block is made, its neighbours are asked whether they can go on. A sum of thousands must not look at
    /// all of its inputs each time. So it remembers the one that it waits for. A source remembers the reader that is furthest
    /// behind.</remarks>
    internal sealed class Slot(Node node, int order, Slot[] inputs)
    {
        private int _awaited;
        private int _slowest;
        private long _least;

        public Node Node { get; } = node;

        public int Order { get; } = order;

        public Slot[] Inputs { get; } = inputs;

        /// <summary>Slots that must have read a block before its memory is used again.</summary>
        public List<Slot> Consumers { get; } = [];

        /// <summary>Slots other than inputs that may go on once this one has read a block.</summary>
        public List<Slot> Frees { get; } = [];

        /// <summary>The number of the next block.</summary>
        public long Done { get; set; } = node.FirstBlock;

        /// <summary>The first block that somebody has yet to read.</summary>
        public long Released { get; set; } = node.FirstBlock;

        /// <summary>Whether the next block waits its turn or is being made.</summary>
        public bool IsQueued { get; set; }

        /// <summary>Whether every input has made the next block.</summary>
        public bool HasAllInputs()
        {
            for (var n = 0; n < Inputs.Length; n++)
            {
                if (Inputs[_awaited].Done <= Done)
                {
                    return false;
                }

                _awaited = _awaited + 1 == Inputs.Length ? 0 : _awaited + 1;
            }

            return true;
        }

        /// <summary>Blocks that every reader has read; no end of them where nobody reads.</summary>
        public long LeastRead()
        {
            if (Consumers.Count == 0)
            {
                return long.MaxValue;
            }

            // As long as one of them stands where the slowest stood, nothing has changed.
            for (var n = 0; n < Consumers.Count; n++)
            {
                if (Consumers[_slowest].Done == _least)
                {
                    return _least;
                }

                _slowest = _slowest + 1 == Consumers.Count ? 0 : _slowest + 1;
            }

            return _least = Consumers.Min(c => c.Done);
        }
    }
}
