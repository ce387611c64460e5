using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Turns down what is softer than a threshold, the more the softer it is.</summary>
/// <remarks>
/// <para>The level L is the highest of the frame and of those of the hold before it. A level of d dB below the threshold T is
/// turned down by (ratio − 1) · d dB, at most by the range R. As a formula: asked = min(R, (ratio − 1) · max(0, T − L)). The
/// slope takes the place of a gate's two levels, so there is no lower threshold.</para>
/// <para>The gain goes to what is asked along a straight line in dB: up by R / attack a frame, down by R / release. So attack and
/// release are the times of a full swing, and a swing of d dB takes d / R of them. The hold keeps every depth: it starts at the
/// last frame at a level, whatever that is. A wave whose half period fits into the hold has a level that stands still.</para>
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
    private readonly double _floor;
    private readonly RunningMaximum _held;
    private double _reduction;

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
        var floor = ratio > 1 ? Decibels.ToGain(thresholdDb - (_range / _slope)) * (1 - Hair) : 0;
        _floor = floor * floor;
        _held = new RunningMaximum(times.Hold + 1);
        _reduction = _range;
    }

    /// <summary>Replaces squared levels by gains.</summary>
    /// <param name="values">The levels; quickest where <see cref="LaneWidth.Whole"/> has made their length.</param>
    /// <param name="frames">Frames that count.</param>
    public void Follow(Span<double> values, int frames)
    {
        _held.Follow(values[..frames]);
        if (LevelScan.FirstAtLeast(values[..frames], _floor) < frames)
        {
            DecibelKernel.PowerToDecibels(values);
            var kernel = new Asking(values, _threshold, _slope, _range);
            Lanewise.Run(ref kernel);
        }
        else
        {
            values.Fill(_range);
        }

        Move(values[..frames]);
        DecibelKernel.ReductionToGain(values);
    }

    private void Move(Span<double> reductions)
    {
        var (reduction, up, down) = (_reduction, _up, _down);
        foreach (ref var frame in reductions)
        {
            reduction = double.MaxNative(reduction - up, double.MinNative(reduction + down, frame));
            frame = reduction;
        }

        _reduction = reduction;
    }

    // Levels to the reductions of the static curve.
    internal readonly ref struct Asking(Span<double> values, double threshold, double slope, double range) : ILaneKernel
    {
        private readonly ref double _values = ref MemoryMarshal.GetReference(values);

        public nint Length { get; } = values.Length;

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref var values = ref _values;
            var (top, steepness, most) = (T.Of(threshold), T.Of(slope), T.Of(range));
            for (; i <= length - T.Count; i += T.Count)
            {
                var below = T.Greater(top - T.Load(in values, i), T.Of(0));
                T.Lesser(below * steepness, most).Store(ref values, i);
            }

            return i;
        }
    }
}
