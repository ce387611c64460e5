namespace DrumPrint.Dsp.Dynamics;

/// <summary>The squared true peak of one channel, frame by frame, of several readers the highest; where nobody asks, it only remembers.</summary>
/// <param name="readers">Their levels lag alike, to within a frame.</param>
internal sealed class CeilingReader(params TrueLevel[] readers)
{
    // More than any reader reaches back.
    private const int HistoryFrames = 256;

    private readonly double[] _powers = new double[4 * TrueLevel.MaxFrames];
    private readonly double[] _line = new double[HistoryFrames + TrueLevel.MaxFrames];
    private bool _isBehind;

    /// <summary>Frames by which levels lag, at most.</summary>
    public int DelayFrames { get; } = readers.Max(r => (r.DelayPoints + r.Points - 1) / r.Points);

    /// <summary>Remembers a stretch whose levels nobody asks for.</summary>
    public void Skip(ReadOnlySpan<double> samples)
    {
        _isBehind = true;
        Keep(samples);
    }

    /// <summary>Reads a stretch.</summary>
    /// <param name="samples">At most <see cref="TrueLevel.MaxFrames"/>.</param>
    /// <param name="highest">Receives the squared levels; length a multiple of the vector's.</param>
    public void Read(ReadOnlySpan<double> samples, Span<double> highest)
    {
        highest.Clear();
        foreach (var reader in readers)
        {
            if (_isBehind)
            {
                reader.Read(_line.AsSpan(0, HistoryFrames / 2), _powers);
                reader.Read(_line.AsSpan(HistoryFrames / 2, HistoryFrames / 2), _powers);
            }

            reader.Read(samples, _powers);
            for (var point = 0; point < reader.Points; point++)
            {
                StretchMath.Raise(highest, _powers.AsSpan(point * TrueLevel.MaxFrames, highest.Length));
            }
        }

        _isBehind = false;
        Keep(samples);
    }

    private void Keep(ReadOnlySpan<double> samples)
    {
        samples.CopyTo(_line.AsSpan(HistoryFrames));
        _line.AsSpan(samples.Length, HistoryFrames).CopyTo(_line);
    }
}
