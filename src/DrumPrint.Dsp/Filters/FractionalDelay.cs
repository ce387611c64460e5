namespace DrumPrint.Dsp.Filters;

/// <summary>Delays one channel by any number of frames, whole or not.</summary>
/// <remarks>
/// A windowed sinc (Kaiser, 150 dB) makes the part of a frame. It is right to −140 dB and better, up to nine tenths of half
/// the sample rate. It reaches to both sides of its centre; what does not fit in front of a short delay becomes latency.
/// Source: Laakso, Välimäki, Karjalainen and Laine, Splitting the Unit Delay, IEEE Signal Processing Magazine 1996, from
/// memory.
/// </remarks>
public sealed class FractionalDelay
{
    private const double AttenuationDb = 150;
    private const double Transition = 0.1;
    private const double WholeFrame = 1e-9;

    private readonly double[] _ring;
    private readonly TapFilter? _part;
    private int _oldest;

    /// <param name="frames">Delay in frames, 0 or more.</param>
    public FractionalDelay(double frames)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frames);
        var nearest = Math.Round(frames);
        var isWhole = Math.Abs(frames - nearest) < WholeFrame;
        var half = isWhole ? 0 : SincKernel.Half(AttenuationDb, Transition);
        var first = isWhole ? (int)nearest : (int)Math.Floor(frames) - half + 1;
        LatencyFrames = Math.Max(0, -first);
        _ring = new double[Math.Max(0, first)];
        _part = isWhole ? null : new TapFilter(SincKernel.Taps(frames - first, half, AttenuationDb));
        TailFrames = Math.Max(0, first + (2 * half));
    }

    /// <summary>Frames the output lags on top of the delay asked for.</summary>
    public int LatencyFrames { get; }

    /// <summary>Frames the output goes on after the input, beyond the latency.</summary>
    public long TailFrames { get; }

    /// <summary>Delays a stretch in place.</summary>
    public void Process(Span<double> samples)
    {
        MoveWholeFrames(samples);
        _part?.Process(samples);
    }

    private void MoveWholeFrames(Span<double> samples)
    {
        if (_ring.Length == 0)
        {
            return;
        }

        foreach (ref var sample in samples)
        {
            (sample, _ring[_oldest]) = (_ring[_oldest], sample);
            _oldest = _oldest + 1 == _ring.Length ? 0 : _oldest + 1;
        }
    }
}
