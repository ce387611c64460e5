using DrumPrint.Dsp.Mixing;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>The squared true peak of one channel, frame by frame, of several readers the highest; where nothing can come as high as is asked for, it only
/// remembers.</summary>
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

    /// <summary>How many times as high as the samples a level may stand, at most.</summary>
    public double Reach { get; } = readers.Max(r => r.Reach);

    /// <summary>Reads a stretch, where a level may come as high as is asked for.</summary>
    /// <param name="samples">At most <see cref="TrueLevel.MaxFrames"/>.</param>
    /// <param name="least">A level that matters; with 0 all are read.</param>
    /// <param name="highest">Receives the squared levels, or 0 throughout where none comes so high; length a multiple of the vector's.</param>
    /// <returns>Whether it was read.</returns>
    public bool Read(ReadOnlySpan<double> samples, double least, Span<double> highest)
    {
        highest.Clear();
        samples.CopyTo(_line.AsSpan(HistoryFrames));

        // What is not a number is read.
        var isLow = Blend.Peak(_line.AsSpan(0, HistoryFrames + samples.Length), 0) * Reach < least;
        for (var i = 0; i < readers.Length && !isLow; i++)
        {
            Read(readers[i], samples, highest);
        }

        _isBehind = isLow;
        _line.AsSpan(samples.Length, HistoryFrames).CopyTo(_line);
        return !isLow;
    }

    private void Read(TrueLevel reader, ReadOnlySpan<double> samples, Span<double> highest)
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
}
