namespace DrumPrint.Rendering;

/// <summary>Works out how much faster a render would be on more cores, from the time each of its steps took.</summary>
/// <remarks>The steps are played through by the same queue that a render goes by, each block taking its node's mean time. It knows
/// nothing of memory and disks, so it is an upper bound.</remarks>
internal static class SpeedUp
{
    // After the last of them has begun: enough for the start and the end of the song to count little, as they do in a whole one.
    private const long Blocks = 400;

    /// <summary>Time on one core over time on several.</summary>
    /// <param name="nodes">Nodes that have run.</param>
    /// <param name="cores">Number of cores, 1 or more.</param>
    public static double On(IReadOnlyList<Node> nodes, int cores)
    {
        var queue = new BlockQueue(nodes, nodes.Select(n => n.FirstBlock).DefaultIfEmpty().Max() + Blocks);
        var running = new PriorityQueue<BlockQueue.Slot, double>();
        var now = 0.0;
        var busy = 0.0;
        while (queue.Left > 0)
        {
            while (running.Count < cores && queue.TryTake(out var slot))
            {
                running.Enqueue(slot, now + slot.Node.BusyTicks);
                busy += slot.Node.BusyTicks;
            }

            running.TryDequeue(out var finished, out now);
            queue.Finish(finished!);
        }

        return now > 0 ? busy / now : 1;
    }
}
