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

    public double Slope(double x) => 1 / ((1 + (x * x)) * Math.Sqrt(1 + (x * x)));
}
