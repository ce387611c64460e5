using System.Numerics;

namespace DrumPrint.Dsp.Saturation;

/// <summary>x up to 1, then 1: untouched below full scale, cut off above.</summary>
internal readonly struct HardCurve : ICurve
{
    // The integral is c²/2 + (|x| − |c|) with c = x held within ±1. Differences of c and of |x| − |c| are exact.
    public Vector<double> Mean(Vector<double> a, Vector<double> b)
    {
        var ca = Vector.Max(Vector.Min(a, Vector<double>.One), -Vector<double>.One);
        var cb = Vector.Max(Vector.Min(b, Vector<double>.One), -Vector<double>.One);
        var inside = (ca - cb) * ((ca + cb) * new Vector<double>(0.5));
        var outside = Vector.Abs(a) - Vector.Abs(ca) - (Vector.Abs(b) - Vector.Abs(cb));
        return Vector.ConditionalSelect(Vector.Equals(a, b), ca, (inside + outside) / (a - b));
    }

    public double Slope(double x) => 1;
}
