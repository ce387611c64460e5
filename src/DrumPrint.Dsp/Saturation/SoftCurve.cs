using System.Numerics;
using System.Runtime.CompilerServices;

namespace DrumPrint.Dsp.Saturation;

/// <summary>x / √(1 + x²): bends from the start and never quite arrives.</summary>
internal readonly struct SoftCurve : ICurve
{
    /// <summary>The integral, √(1 + x²).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector<double> Share(Vector<double> x) => Vector.SquareRoot(Vector.FusedMultiplyAdd(x, x, Vector<double>.One));

    // The divided difference of the integral simplifies to this.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector<double> Mean(Vector<double> a, Vector<double> shareA, Vector<double> b, Vector<double> shareB) => (a + b) / (shareA + shareB);

    // One division for both: it takes as long as many products.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public (Vector<double> First, Vector<double> Second) Means(Vector<double> a, Vector<double> shareA, Vector<double> b, Vector<double> shareB, Vector<double> c, Vector<double> shareC)
    {
        var first = shareA + shareB;
        var second = shareB + shareC;
        var inverse = Vector<double>.One / (first * second);
        return ((a + b) * (second * inverse), (b + c) * (first * inverse));
    }

    public double Slope(double x) => 1 / ((1 + (x * x)) * Math.Sqrt(1 + (x * x)));
}
