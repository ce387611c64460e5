using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>The static curve of a compressor: how many decibels come off a level that stays.</summary>
/// <remarks>Source: Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. (4). Let k = 1 − 1/R, and u the part of the
/// knee that the level has climbed, from 0 to W. The three branches of the paper become one expression: k u² / 2W + k ·
/// (what lies above the knee).</remarks>
internal readonly struct GainComputer
{
    private readonly double _knee;
    private readonly double _slope;
    private readonly double _slopeInKnee;

    /// <param name="thresholdDb">Level at the middle of the knee.</param>
    /// <param name="ratio">Decibels in for one decibel out, 1 or more.</param>
    /// <param name="kneeDb">Width of the knee; 0 for a corner.</param>
    public GainComputer(double thresholdDb, double ratio, double kneeDb)
    {
        Foot = thresholdDb - (kneeDb / 2);
        _knee = kneeDb;
        _slope = 1 - (1 / ratio);
        _slopeInKnee = kneeDb > 0 ? _slope / (2 * kneeDb) : 0;
    }

    /// <summary>Level in dB up to which nothing comes off.</summary>
    public double Foot { get; }

    /// <summary>Turns levels in dB into reductions in dB, 0 or more, in place.</summary>
    public void Reduce(Span<double> levels)
    {
        var kernel = new Reducing(levels, this);
        Lanewise.Run(ref kernel);
    }

    internal readonly ref struct Reducing(Span<double> levels, GainComputer curve) : ILaneKernel
    {
        private readonly ref double _levels = ref MemoryMarshal.GetReference(levels);

        public nint Length { get; } = levels.Length;

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref var levels = ref _levels;
            var (foot, knee, slope, slopeInKnee) = (T.Of(curve.Foot), T.Of(curve._knee), T.Of(curve._slope), T.Of(curve._slopeInKnee));
            for (; i <= length - T.Count; i += T.Count)
            {
                var above = T.Greater(T.Load(in levels, i) - foot, T.Of(0));
                var inKnee = T.Lesser(above, knee);
                ((slopeInKnee * inKnee * inKnee) + (slope * (above - inKnee))).Store(ref levels, i);
            }

            return i;
        }
    }
}
