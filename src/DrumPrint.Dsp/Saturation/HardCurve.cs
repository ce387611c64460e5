using System.Numerics;
using System.Runtime.CompilerServices;

namespace DrumPrint.Dsp.Saturation;

/// <summary>x up to 1, then 1: untouched below full scale, cut off above.</summary>
internal readonly struct HardCurve : ICurve
{
    /// <summary>The input held within full scale: the curve itself.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector<double> Share(Vector<double> x) => Vector.MaxNative(Vector.MinNative(x, Vector<double>.One), -Vector<double>.One);

    // With c the share, the integral is c²/2 + (|x| − |c|). Differences of c and of |x| − |c| are exact.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector<double> Mean(Vector<double> a, Vector<double> shareA, Vector<double> b, Vector<double> shareB)
    {
        var inside = (shareA - shareB) * ((shareA + shareB) * new Vector<double>(0.5));
        var outside = Vector.Abs(a) - Vector.Abs(shareA) - (Vector.Abs(b) - Vector.Abs(shareB));
        return Vector.ConditionalSelect(Vector.Equals(a, b), shareA, (inside + outside) / (a - b));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public (Vector<double> First, Vector<double> Second) Means(Vector<double> a, Vector<double> shareA, Vector<double> b, Vector<double> shareB, Vector<double> c, Vector<double> shareC) =>
        (Mean(b, shareB, a, shareA), Mean(c, shareC, b, shareB));

    public double Slope(double x) => 1;
}
