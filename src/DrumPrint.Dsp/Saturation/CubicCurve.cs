using System.Numerics;

namespace DrumPrint.Dsp.Saturation;

/// <summary>x − 4x³/27, which arrives at 1 level at x = 1.5 and stays there: third harmonic alone until then.</summary>
internal readonly struct CubicCurve : ICurve
{
    private const double Knee = 1.5;

    // The integral is c²/2 − c⁴/27 + (|x| − |c|) with c = x held within the knee. Differences of c and of |x| − |c| are exact.
    public Vector<double> Mean(Vector<double> a, Vector<double> b)
    {
        var knee = new Vector<double>(Knee);
        var ca = Vector.Max(Vector.Min(a, knee), -knee);
        var cb = Vector.Max(Vector.Min(b, knee), -knee);
        var squares = (ca * ca) + (cb * cb);
        var inside = (ca - cb) * ((ca + cb) * (new Vector<double>(0.5) - (squares * new Vector<double>(1.0 / 27))));
        var outside = Vector.Abs(a) - Vector.Abs(ca) - (Vector.Abs(b) - Vector.Abs(cb));
        var value = ca - (ca * ca * ca * new Vector<double>(4.0 / 27));
        return Vector.ConditionalSelect(Vector.Equals(a, b), value, (inside + outside) / (a - b));
    }

    public double Slope(double x) => 1 - (x * x * (4.0 / 9));
}
