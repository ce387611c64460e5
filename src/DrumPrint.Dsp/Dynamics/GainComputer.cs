using System.Numerics;
using System.Runtime.InteropServices;

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
    /// <param name="levels">Length a multiple of the vector's.</param>
    public void Reduce(Span<double> levels)
    {
        var foot = new Vector<double>(Foot);
        var knee = new Vector<double>(_knee);
        var slope = new Vector<double>(_slope);
        var slopeInKnee = new Vector<double>(_slopeInKnee);
        ref var first = ref MemoryMarshal.GetReference(levels);
        for (nuint i = 0; i < (nuint)levels.Length; i += (nuint)Vector<double>.Count)
        {
            var above = Vector.MaxNative(Vector.LoadUnsafe(ref first, i) - foot, Vector<double>.Zero);
            var inKnee = Vector.MinNative(above, knee);
            ((slopeInKnee * inKnee * inKnee) + (slope * (above - inKnee))).StoreUnsafe(ref first, i);
        }
    }
}
