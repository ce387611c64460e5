namespace DrumPrint.Live;

/// <summary>Memory for blocks, one channel each, that graphs take over from each other.</summary>
/// <param name="frames">Frames of a block.</param>
internal sealed class BlockPool(int frames)
{
    private readonly Stack<double[]> _free = new();
    private readonly Lock _gate = new();

    /// <summary>How many channels of a block there are, lent or not.</summary>
    public int Made { get; private set; }

    /// <summary>Lends memory for one channel of one block; what it holds is left over from others.</summary>
    public double[] Lend()
    {
        lock (_gate)
        {
            if (_free.TryPop(out var channel))
            {
                return channel;
            }

            Made++;
            return new double[frames];
        }
    }

    /// <summary>Takes memory back.</summary>
    public void TakeBack(double[] channel)
    {
        lock (_gate)
        {
            _free.Push(channel);
        }
    }
}
