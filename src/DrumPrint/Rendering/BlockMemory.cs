namespace DrumPrint.Rendering;

/// <summary>Memory for blocks that are being made or still read, lent out one channel at a time.</summary>
/// <remarks>What was given back last is lent first, and by choice to the thread that gave it back: its core's cache still holds it.
/// It grows to the most that is ever needed at once. Not safe for several threads at once.</remarks>
/// <param name="workers">Number of threads, which tell themselves apart by number.</param>
internal sealed class BlockMemory(int workers)
{
    private readonly Stack<double[]>[] _free = [.. Enumerable.Range(0, workers).Select(_ => new Stack<double[]>())];

    /// <summary>Lends memory for one channel of one block; what it holds is left over from others.</summary>
    public double[] Lend(int worker, int frames)
    {
        if (_free[worker].TryPop(out var channel))
        {
            return channel;
        }

        foreach (var others in _free)
        {
            if (others.TryPop(out channel))
            {
                return channel;
            }
        }

        return new double[frames];
    }

    /// <summary>Takes memory back.</summary>
    public void TakeBack(int worker, double[] channel) => _free[worker].Push(channel);
}
