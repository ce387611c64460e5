using System.Numerics;

namespace DrumPrint.Dsp.Saturation;

/// <summary>x / √(1 + x²): bends from the start and never quite arrives.</summary>
internal readonly struct SoftCurve : ICurve
{
    // With the integral √(1 + x²), the divided difference simplifies to (a + b)/(√(1 + a²) + √(1 + b²)).
    public Vector<double> Mean(Vector<double> a, Vector<double> b) =>
        (a + b) / (Vector.SquareRoot(Vector<double>.One + (a * a)) + Vector.SquareRoot(Vector<double>.One + (b * b)));

    public double Slope(double x) => 1 / ((1 + (x * x)) * Math.Sqrt(1 + (x * x)));
}
