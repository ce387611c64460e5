using System.Numerics;
using System.Runtime.CompilerServices;

namespace DrumPrint.Dsp.Saturation;

/// <summary>x − 4x³/27, which arrives at 1 when x = 1.5 and stays there: third harmonic alone until then.</summary>
internal readonly struct CubicCurve : ICurve
{
    private const double Knee = 1.5;

    /// <summary>The input held within the knee.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector<double> Share(Vector<double> x) => Vector.MaxNative(Vector.MinNative(x, new Vector<double>(Knee)), new Vector<double>(-Knee));

    // With c the share, the integral is c²/2 − c⁴/27 + (|x| − |c|). Differences of c and of |x| − |c| are exact.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector<double> Mean(Vector<double> a, Vector<double> shareA, Vector<double> b, Vector<double> shareB)
    {
        var squareA = shareA * shareA;
        var squares = squareA + (shareB * shareB);
        var inside = (shareA - shareB) * ((shareA + shareB) * (new Vector<double>(0.5) - (squares * new Vector<double>(1.0 / 27))));
        var outside = Vector.Abs(a) - Vector.Abs(shareA) - (Vector.Abs(b) - Vector.Abs(shareB));
        var value = shareA - (squareA * shareA * new Vector<double>(4.0 / 27));
        return Vector.ConditionalSelect(Vector.Equals(a, b), value, (inside + outside) / (a - b));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public (Vector<double> First, Vector<double> Second) Means(Vector<double> a, Vector<double> shareA, Vector<double> b, Vector<double> shareB, Vector<double> c, Vector<double> shareC) =>
        (Mean(b, shareB, a, shareA), Mean(c, shareC, b, shareB));

    public double Slope(double x) => 1 - (x * x * (4.0 / 9));
}
