using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Takes what lies above 0.454 to 0.488 of the rate out of one channel, but only around places where it could carry the wave
/// past a ceiling.</summary>
/// <remarks>How high the wave of that band stands between the samples hangs on samples far away, and no two readers of finite length
/// agree on it. At 44.1 kHz the band begins at 20 kHz. Elsewhere the samples pass as they are, bit for bit.</remarks>
internal sealed class TopBand
{
    /// <summary>Frames beside such a place from which the band is taken too. What is left of it farther away adds less than 0.01 dB.</summary>
    public const int SpreadFrames = 160;

    private const double AttenuationDb = 80;
    private const double PassEdge = 0.4535;
    private const double StopEdge = 0.4875;

    // No more than this of the ceiling is not worth taking out: 0.001 dB.
    private const double Least = 1e-4;

    // How much higher the band's wave may stand between its samples than on them.
    private const double Between = 2;

    private readonly TapFilter _filter;
    private readonly LookAhead _whole;
    private readonly LookAhead _lowLine;
    private readonly LookAhead _wholeLine;
    private readonly RunningMaximum _highest;
    private readonly CeilingLane _part;
    private readonly double _ceiling;
    private readonly double[] _low = new double[TrueLevel.MaxFrames];
    private readonly double[] _top = new double[TrueLevel.MaxFrames];
    private readonly int _memory;
    private int _quietFrames;

    /// <param name="ceiling">Ceiling, linear.</param>
    /// <param name="times">How it is faded in and out.</param>
    /// <param name="slackFrames">Frames on either side of a place that are treated as it is.</param>
    /// <param name="levelDelayFrames">Frames by which levels lag.</param>
    public TopBand(double ceiling, CeilingTimes times, int slackFrames, int levelDelayFrames)
    {
        _ceiling = ceiling;
        var taps = Taps();
        DelayFrames = taps.Length / 2;
        _filter = new TapFilter(taps);
        _whole = new LookAhead(DelayFrames, TrueLevel.MaxFrames);
        _memory = (2 * levelDelayFrames) + 1;
        _quietFrames = _memory;
        _highest = new RunningMaximum(_memory);
        _part = new CeilingLane(times with { Release = 0 }, slackFrames + SpreadFrames, 0);
        _lowLine = new LookAhead(levelDelayFrames + _part.DelayFrames, TrueLevel.MaxFrames);
        _wholeLine = new LookAhead(levelDelayFrames + _part.DelayFrames, TrueLevel.MaxFrames);
    }

    /// <summary>Frames by which <see cref="Split"/> lags.</summary>
    public int DelayFrames { get; }

    /// <summary>What is left of the ceiling above the band in the stretch last put in: below this a level without the band changes nothing.</summary>
    public double Left { get; private set; }

    /// <summary>Puts in a stretch and returns it without the band, to read its level.</summary>
    public Span<double> Split(Span<double> samples)
    {
        var low = _low.AsSpan(0, samples.Length);
        samples.CopyTo(low);
        _filter.Process(low);
        _whole.Process(samples);
        Compare(samples, low);
        return low;
    }

    /// <summary>Leaves the stretch last put in as it is, or takes the band out.</summary>
    /// <param name="samples">The stretch.</param>
    /// <param name="powers">Squared levels of it without the band.</param>
    public void Join(Span<double> samples, ReadOnlySpan<double> powers)
    {
        var low = _low.AsSpan(0, samples.Length);
        var part = _top.AsSpan(0, samples.Length);
        var works = Ask(part, powers) || !_part.IsAtRest;
        _lowLine.Process(low);
        _wholeLine.Process(samples);
        if (!works)
        {
            return;
        }

        _part.Follow(part);
        for (var n = 0; n < samples.Length; n++)
        {
            samples[n] = part[n] == 0 ? samples[n] : Math.FusedMultiplyAdd(part[n], low[n] - samples[n], samples[n]);
        }
    }

    private static double[] Taps()
    {
        var reach = KaiserWindow.Taps(AttenuationDb, StopEdge - PassEdge) / 2;
        var beta = KaiserWindow.Beta(AttenuationDb);
        var taps = new double[(2 * reach) + 1];
        for (var i = 0; i < taps.Length; i++)
        {
            var turn = Math.PI * (PassEdge + StopEdge) * (i - reach);
            taps[i] = (i == reach ? 1 : Elementary.Sin(turn) / turn) * KaiserWindow.At((double)(i - reach) / (reach + 1), beta);
        }

        var sum = taps.Sum();
        return Array.ConvertAll(taps, t => t / sum);
    }

    // How high the band stands about each frame.
    private void Compare(ReadOnlySpan<double> whole, ReadOnlySpan<double> low)
    {
        low = low[..whole.Length];
        var part = _top.AsSpan(0, whole.Length);
        for (var n = 0; n < part.Length; n++)
        {
            part[n] = Math.Abs(whole[n] - low[n]);
        }

        Left = _ceiling;
        var isLow = Blend.Peak(part, 0) <= Least * _ceiling;
        if (isLow && _quietFrames >= _memory)
        {
            part.Clear();
            return;
        }

        _quietFrames = isLow ? _quietFrames + part.Length : 0;
        _highest.Follow(part);
        var most = Blend.Peak(part, 0);
        Left -= most <= Least * _ceiling ? 0 : Between * most;
    }

    // Whether there is anywhere that the band could carry the wave past the ceiling: 1 there and 0 elsewhere.
    private bool Ask(Span<double> part, ReadOnlySpan<double> powers)
    {
        var least = double.Max(0, Left);
        if (LevelScan.FirstAtLeast(powers[..part.Length], least * least) == part.Length)
        {
            part.Clear();
            return false;
        }

        var any = false;
        for (var n = 0; n < part.Length; n++)
        {
            var left = double.MaxNative(0, _ceiling - (Between * part[n]));
            var isOver = part[n] > Least * _ceiling && powers[n] > left * left;
            part[n] = isOver ? 1 : 0;
            any |= isOver;
        }

        return any;
    }
}
