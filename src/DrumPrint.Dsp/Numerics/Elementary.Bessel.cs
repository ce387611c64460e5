namespace DrumPrint.Dsp.Numerics;

public static partial class Elementary
{
    /// <summary>
    /// Modified Bessel function of the first kind, order 0, within 0.51 ulp. It holds for |x| up to 713, where it nears
    /// the end of the range of a double. For window design.
    /// </summary>
    /// <remarks>The power series Σ (x²/4)ⁿ/n!², whose terms are all positive, in double-double.</remarks>
    public static double BesselI0(double x)
    {
        if (!(Math.Abs(x) < 714))
        {
            return double.IsNaN(x) ? x : double.PositiveInfinity;
        }

        var quarter = DoubleDouble.Product(x / 2, x / 2);
        var term = (DoubleDouble)1;
        var sum = (DoubleDouble)1;
        for (var n = 1; term.High > sum.High * 1e-20; n++)
        {
            term *= quarter / ((double)n * n);
            sum += term;
        }

        return sum.High;
    }
}
