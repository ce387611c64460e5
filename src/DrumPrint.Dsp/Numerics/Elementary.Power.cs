namespace DrumPrint.Dsp.Numerics;

public static partial class Elementary
{
    private static readonly DoubleDouble TwoThirds = new(0.6666666666666666, 3.700743415417188e-17);
    private static readonly DoubleDouble TwoFifths = new(0.4, -2.2204460492503132e-17);
    private static readonly DoubleDouble Ln2 = new(ExponentialKernel.Ln2High, ExponentialKernel.Ln2Low);

    /// <summary>
    /// <paramref name="x"/> to the power <paramref name="y"/>, any x and y; within 0.8 ulp, NaN for a negative x unless y is whole.
    /// </summary>
    public static double Pow(double x, double y)
    {
        if (y == 0 || x == 1)
        {
            return 1;
        }

        if (double.IsNaN(x) || double.IsNaN(y))
        {
            return double.NaN;
        }

        if (x < 0 && double.IsFinite(x) && double.IsFinite(y) && !double.IsInteger(y))
        {
            return double.NaN;
        }

        var size = PowOfPositive(Math.Abs(x), y);
        return double.IsNegative(x) && double.IsOddInteger(y) ? -size : size;
    }

    private static double PowOfPositive(double x, double y)
    {
        if (x == 1)
        {
            return 1;
        }

        if (x == 0 || double.IsInfinity(x) || double.IsInfinity(y))
        {
            return x > 1 == y > 0 ? double.PositiveInfinity : 0;
        }

        var log = PreciseLog(x);
        if (!(Math.Abs(log.High * y) < 1000))
        {
            return log.High > 0 == y > 0 ? double.PositiveInfinity : 0;
        }

        var exponent = log * y;
        return ExpOfSum(exponent.High, exponent.Low);
    }

    // ln x to 2⁻⁷⁰ of itself: the power multiplies its error by up to 745.
    private static DoubleDouble PreciseLog(double x)
    {
        var lift = x < SmallestNormal ? 54 : 0;
        var bits = BitConverter.DoubleToInt64Bits(x * PowerOfTwo(lift)) - 0x3FE6_A09E_667F_3BCD;
        var exponent = (int)(bits >> 52);
        var f = BitConverter.Int64BitsToDouble((bits & 0x000F_FFFF_FFFF_FFFF) + 0x3FE6_A09E_667F_3BCD) - 1;

        // 2·atanh s = s·(2 + 2z/3 + 2z²/5 + z³·(2/7 + …)); the bracket by a minimax polynomial, error under 2⁻⁷² of the whole.
        var s = (DoubleDouble)f / DoubleDouble.Sum(2, f);
        var z = s * s;
        var p = 0.11878111609463393;
        p = Math.FusedMultiplyAdd(p, z.High, 0.11689106235414778);
        p = Math.FusedMultiplyAdd(p, z.High, 0.13335558957276816);
        p = Math.FusedMultiplyAdd(p, z.High, 0.1538457820898241);
        p = Math.FusedMultiplyAdd(p, z.High, 0.1818181853039235);
        p = Math.FusedMultiplyAdd(p, z.High, 0.22222222220555454);
        p = Math.FusedMultiplyAdd(p, z.High, 0.285714285714316);
        var series = TwoThirds + (z * (TwoFifths + (z * p)));
        return (Ln2 * (exponent - lift)) + (s * ((z * series) + 2));
    }
}
