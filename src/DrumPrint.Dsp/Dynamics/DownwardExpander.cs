using System.Numerics;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Turns down what is softer than a threshold, the more the softer it is.</summary>
/// <remarks>
/// <para>A level of d dB below the threshold is turned down by (ratio − 1) · d dB, at most by the range. The slope takes the
/// place of a gate's two levels, so there is no lower threshold.</para>
/// <para>Attack and release are the times of a full swing between the range and 0 dB, a straight line in dB; a smaller
/// swing takes its part of the time. The hold keeps the way open from the last frame at or above the threshold.</para>
/// </remarks>
internal sealed class DownwardExpander
{
    // Just beyond, so that what is past a level surely gets all of it or nothing.
    private const double Hair = 1e-9;

    private readonly double _threshold;
    private readonly double _slope;
    private readonly double _range;
    private readonly double _up;
    private readonly double _down;
    private readonly int _hold;
    private readonly double _floor;
    private double _reduction;
    private int _framesBelow;

    /// <param name="thresholdDb">Level from which nothing is turned down.</param>
    /// <param name="ratio">Decibels out for one decibel in below the threshold, 1 or more.</param>
    /// <param name="rangeDb">Most that is turned down, 0 or less.</param>
    /// <param name="times">Frames of a full swing and of the hold.</param>
    public DownwardExpander(double thresholdDb, double ratio, double rangeDb, TriggerTimes times)
    {
        _threshold = thresholdDb;
        _slope = ratio - 1;
        _range = -rangeDb;
        _up = times.Attack == 0 ? _range : _range / times.Attack;
        _down = times.Release == 0 ? _range : _range / times.Release;
        _hold = times.Hold;
        _floor = ratio > 1 ? Decibels.ToGain(thresholdDb - (_range / _slope)) * (1 - Hair) : 0;
        _framesBelow = _hold;
        _reduction = _range;
    }

    /// <summary>Replaces amplitudes by gains.</summary>
    /// <param name="values">Length a multiple of the vector's.</param>
    /// <param name="frames">Frames that count.</param>
    public void Follow(Span<double> values, int frames)
    {
        if (LevelScan.FirstAtLeast(values[..frames], _floor) < frames)
        {
            DecibelKernel.AmplitudeToDecibels(values);
            Ask(values);
        }
        else
        {
            values.Fill(_range);
        }

        Move(values[..frames]);
        DecibelKernel.ReductionToGain(values);
    }

    // Levels to the reductions of the static curve.
    private void Ask(Span<double> values)
    {
        var threshold = new Vector<double>(_threshold);
        var slope = new Vector<double>(_slope);
        var range = new Vector<double>(_range);
        ref var first = ref MemoryMarshal.GetReference(values);
        for (nuint i = 0; i < (nuint)values.Length; i += (nuint)Vector<double>.Count)
        {
            var below = Vector.MaxNative(threshold - Vector.LoadUnsafe(ref first, i), Vector<double>.Zero);
            Vector.MinNative(below * slope, range).StoreUnsafe(ref first, i);
        }
    }

    private void Move(Span<double> reductions)
    {
        var (reduction, framesBelow, hold) = (_reduction, _framesBelow, _hold);
        var (up, down) = (_up, _down);
        foreach (ref var frame in reductions)
        {
            framesBelow = frame <= 0 ? 0 : Math.Min(framesBelow + 1, hold + 1);
            var asked = framesBelow <= hold ? 0 : frame;
            reduction = double.MaxNative(reduction - up, double.MinNative(reduction + down, asked));
            frame = reduction;
        }

        (_reduction, _framesBelow) = (reduction, framesBelow);
    }
}
