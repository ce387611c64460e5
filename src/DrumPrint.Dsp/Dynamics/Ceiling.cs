using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Turns a signal down, ahead of its peaks, so that its wave stays under a ceiling, between the samples too.</summary>
/// <remarks>
/// <para>The level is read between the samples (<see cref="TrueLevel"/>), and in decibels above the ceiling. The largest over the
/// look-ahead counts, so a mean over the look-ahead never falls short of any peak in it.</para>
/// <para>A gain that moves changes the wave between the samples: what it moves by within the reach of the interpolation comes on top.
/// So one pass comes near the ceiling. A second one takes off what is left, and it alone is read as closely as any reader may.</para>
/// </remarks>
internal sealed class Ceiling
{
    /// <summary>Longest stretch at once.</summary>
    public const int MaxFrames = TrueLevel.MaxFrames;

    // Frames beside a peak that have a part in it.
    private const int SlackFrames = 2;

    private readonly CeilingReader[] _readers;
    private readonly TopBand[]? _tops;
    private readonly LookAhead[]? _lines;
    private readonly CeilingLane[] _lanes;
    private readonly double _link;
    private readonly double _ceilingDb;
    private readonly double _ceiling;
    private readonly double[] _highest = new double[MaxFrames];
    private readonly double[][] _above;

    /// <param name="format">Of the signal.</param>
    /// <param name="ceilingDb">Ceiling in dB of full scale.</param>
    /// <param name="times">How its gain moves.</param>
    /// <param name="link">How far each side follows the one that is turned down most, 0 to 1.</param>
    /// <param name="isLast">Whether this is the second pass; the first one takes out the band that no reader agrees on, where it has
    /// to: <see cref="TopBand"/>.</param>
    public Ceiling(AudioFormat format, double ceilingDb, CeilingTimes times, double link, bool isLast)
    {
        (_ceilingDb, _link) = (ceilingDb, link);
        _ceiling = Decibels.ToGain(ceilingDb);
        _readers = Make(format.Channels, () => isLast ? LevelRates.Close() : new CeilingReader(LevelRates.Fine(format.SampleRate, findsPeaks: true)));
        _above = Make(format.Channels, () => new double[MaxFrames]);
        _lanes = Make(link < 1 ? format.Channels : 1, () => new CeilingLane(times, SlackFrames, isLast ? 0 : TopBand.SpreadFrames));
        var levelDelay = _readers[0].DelayFrames;
        LatencyFrames = levelDelay + _lanes[0].DelayFrames;
        if (isLast)
        {
            _lines = Make(format.Channels, () => new LookAhead(LatencyFrames, MaxFrames));
        }
        else
        {
            _tops = Make(format.Channels, () => new TopBand(_ceiling, times, SlackFrames, levelDelay));
            LatencyFrames += _tops[0].DelayFrames;
        }
    }

    /// <summary>Frames by which the sound lags.</summary>
    public int LatencyFrames { get; }

    /// <summary>Frames the sound goes on beyond that.</summary>
    public int TailFrames => _tops?[0].DelayFrames ?? 0;

    /// <summary>Turns down a stretch.</summary>
    /// <param name="part">At most <see cref="MaxFrames"/>.</param>
    /// <returns>Whether anything was turned down; <see cref="Lower"/> tells by how much.</returns>
    public bool Process(AudioBlock part)
    {
        var isAbove = false;
        for (var channel = 0; channel < part.Channels; channel++)
        {
            isAbove |= Read(part[channel], channel);
            _tops?[channel].Join(part[channel], _highest);
            _lines?[channel].Process(part[channel]);
        }

        var works = isAbove;
        foreach (var lane in _lanes)
        {
            works |= !lane.IsAtRest;
        }

        if (!works)
        {
            return false;
        }

        if (isAbove)
        {
            Link(part.Frames);
        }

        for (var lane = 0; lane < _lanes.Length; lane++)
        {
            _lanes[lane].Follow(_above[lane].AsSpan(0, part.Frames));
            DecibelKernel.ReductionToGain(_above[lane].AsSpan(0, LaneWidth.Whole(part.Frames)));
        }

        for (var channel = 0; channel < part.Channels; channel++)
        {
            StretchMath.Scale(part[channel], _above[Math.Min(channel, _lanes.Length - 1)]);
        }

        return true;
    }

    /// <summary>Multiplies a curve by the gains of the stretch last turned down, of two sides the lower.</summary>
    public void Lower(Span<double> curve)
    {
        if (_lanes.Length > 1)
        {
            StretchMath.Lower(_above[0].AsSpan(0, curve.Length), _above[1]);
        }

        StretchMath.Scale(curve, _above[0]);
    }

    private static T[] Make<T>(int count, Func<T> make) => [.. Enumerable.Range(0, count).Select(_ => make())];

    // Whether anything stands above the ceiling; if so, the decibels by which it does.
    private bool Read(Span<double> samples, int channel)
    {
        var highest = _highest.AsSpan(0, LaneWidth.Whole(samples.Length));
        var above = _above[channel].AsSpan(0, highest.Length);
        var heard = _tops is null ? samples : _tops[channel].Split(samples);
        var least = _tops is null ? _ceiling : _tops[channel].Left;
        if (!_readers[channel].Read(heard, least, highest) || LevelScan.FirstAtLeast(highest[..samples.Length], _ceiling * _ceiling) == samples.Length)
        {
            above.Clear();
            return false;
        }

        highest.CopyTo(above);
        DecibelKernel.PowerToDecibels(above);
        var ceilingDb = _ceilingDb;
        foreach (ref var value in above)
        {
            value = double.MaxNative(0, value - ceilingDb);
        }

        return true;
    }

    private void Link(int frames)
    {
        if (_above.Length < 2)
        {
            return;
        }

        var link = _link;
        var left = _above[0].AsSpan(0, frames);
        var right = _above[1].AsSpan(0, frames);
        for (var n = 0; n < left.Length; n++)
        {
            var (a, b) = (left[n], right[n]);
            var most = double.MaxNative(a, b);
            left[n] = Math.FusedMultiplyAdd(link, most - a, a);
            right[n] = Math.FusedMultiplyAdd(link, most - b, b);
        }
    }
}
