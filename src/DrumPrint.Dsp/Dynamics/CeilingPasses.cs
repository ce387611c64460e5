using DrumPrint.Dsp.Metering;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Two passes of a <see cref="Ceiling"/>: after them no reader of true peak finds anything above it.</summary>
internal sealed class CeilingPasses
{
    /// <summary>Longest stretch at once.</summary>
    public const int MaxFrames = Ceiling.MaxFrames;

    // How far under the ceiling the two passes stay: what readers with other filters see beyond ours.
    private const double FirstUnderDb = 0.12;
    private const double SecondUnderDb = 0.08;

    // The second pass takes off little and moves slowly, so that it leaves nothing to a third.
    private const double SecondAheadMs = 1;
    private const double SecondHoldMs = 5;
    private const double SecondReleaseMs = 50;

    private readonly Ceiling _first;
    private readonly Ceiling _second;
    private readonly double[] _gains = new double[MaxFrames];
    private readonly LookAhead _curve;
    private int _untilSound;
    private int _untilStart;

    /// <param name="context">The render.</param>
    /// <param name="ceilingDb">True peak that nothing passes.</param>
    /// <param name="aheadMs">How long before a peak the gain begins to come down.</param>
    /// <param name="holdMs">How long it stays down after.</param>
    /// <param name="releaseMs">After how long it has come 63 % of the way back, in decibels.</param>
    /// <param name="link">How far each side follows the one that is turned down most, 0 to 1.</param>
    public CeilingPasses(ProcessorContext context, double ceilingDb, double aheadMs, double holdMs, double releaseMs, double link)
    {
        var rate = context.Format.SampleRate;
        var times = CeilingTimes.FromMs(aheadMs, holdMs, releaseMs, rate);
        var slow = CeilingTimes.FromMs(SecondAheadMs, Math.Max(SecondHoldMs, holdMs), Math.Max(SecondReleaseMs, releaseMs), rate);
        _first = new Ceiling(context.Format, ceilingDb - FirstUnderDb, times, link, isLast: false);
        _second = new Ceiling(context.Format, ceilingDb - SecondUnderDb, slow, link, isLast: true);
        _curve = new LookAhead(_second.LatencyFrames, MaxFrames);
        _curve.Fill(1);
        LatencyFrames = _first.LatencyFrames + _second.LatencyFrames;
        MemoryFrames = LatencyFrames + TailFrames + times.MemoryFrames + slow.MemoryFrames;
        _untilSound = LatencyFrames;
        _untilStart = _first.LatencyFrames;
        GainCurve = new GainCurve(rate, context.Frames);
    }

    /// <summary>Frames by which the sound lags.</summary>
    public int LatencyFrames { get; }

    /// <summary>Frames the sound goes on beyond that.</summary>
    public int TailFrames => _first.TailFrames;

    /// <summary>Frames after which what came earlier is heard no more.</summary>
    public long MemoryFrames { get; }

    /// <summary>The gain over time, of two sides the lower, in time with the sound after the latency has been taken out.</summary>
    public GainCurve GainCurve { get; }

    /// <summary>Leaves frames out of the curve and of what is read that come before the start of the sound.</summary>
    /// <param name="frames">Latency of what comes before.</param>
    public void BeginAfter(int frames)
    {
        _untilSound += frames;
        _untilStart += frames;
    }

    /// <summary>Turns down a stretch of at most <see cref="MaxFrames"/>.</summary>
    public void Process(AudioBlock part)
    {
        var gains = _gains.AsSpan(0, part.Frames);
        gains.Fill(1);
        if (_first.Process(part))
        {
            _first.Lower(gains);
        }

        CutStart(part);
        _curve.Process(gains);
        if (_second.Process(part))
        {
            _second.Lower(gains);
        }

        var skipped = Math.Min(_untilSound, gains.Length);
        _untilSound -= skipped;
        GainCurve.Add(gains[skipped..]);
    }

    // What a filter puts before the start is not in the print: the second pass reads the wave without it.
    private void CutStart(AudioBlock part)
    {
        var cut = Math.Min(_untilStart, part.Frames);
        _untilStart -= cut;
        for (var channel = 0; channel < part.Channels; channel++)
        {
            part[channel][..cut].Clear();
        }
    }
}
