namespace DrumPrint.Dsp.Numerics;

/// <summary>
/// The elementary functions of the signal path, built from + − × ÷ √ and explicit fused multiply-add only, so that
/// every machine computes the same bits.
/// </summary>
/// <remarks>Series coefficients are the Taylor coefficients of each function; constants are split in two or three
/// doubles so that argument reduction keeps full precision.</remarks>
public static class Elementary
{
    private const double Log2E = 1.4426950408889634;
    private const double Ln2High = 0.6931471805599453;
    private const double Ln2Low = 2.3190468138462996e-17;
    private const double Log10E = 0.4342944819032518;
    private const double TwoOverPi = 0.6366197723675814;
    private const double HalfPiHigh = 1.5707963267948966;
    private const double HalfPiMiddle = 6.123233995736766e-17;
    private const double HalfPiLow = -1.4973849048591833e-33;
    private const double SqrtHalf = 0.7071067811865476;

    /// <summary>e to the power <paramref name="x"/>.</summary>
    public static double Exp(double x)
    {
        if (double.IsNaN(x))
        {
            return x;
        }

        if (x > 709.782712893384)
        {
            return double.PositiveInfinity;
        }

        if (x < -745.2)
        {
            return 0;
        }

        var k = Math.Round(x * Log2E);
        var r = Math.FusedMultiplyAdd(-k, Ln2High, x);
        r = Math.FusedMultiplyAdd(-k, Ln2Low, r);
        var p = 1.1470745597729725e-11;                           // 1/14!
        p = Math.FusedMultiplyAdd(p, r, 1.6059043836821613e-10);  // 1/13!
        p = Math.FusedMultiplyAdd(p, r, 2.08767569878681e-09);
        p = Math.FusedMultiplyAdd(p, r, 2.505210838544172e-08);
        p = Math.FusedMultiplyAdd(p, r, 2.755731922398589e-07);
        p = Math.FusedMultiplyAdd(p, r, 2.7557319223985893e-06);
        p = Math.FusedMultiplyAdd(p, r, 2.48015873015873e-05);
        p = Math.FusedMultiplyAdd(p, r, 0.0001984126984126984);
        p = Math.FusedMultiplyAdd(p, r, 0.001388888888888889);
        p = Math.FusedMultiplyAdd(p, r, 0.008333333333333333);
        p = Math.FusedMultiplyAdd(p, r, 0.041666666666666664);
        p = Math.FusedMultiplyAdd(p, r, 0.16666666666666666);
        p = Math.FusedMultiplyAdd(p, r, 0.5);
        var y = 1 + Math.FusedMultiplyAdd(p * r, r, r);
        return Scale(y, (int)k);
    }

    /// <summary>Natural logarithm; −∞ at 0 and NaN below it.</summary>
    public static double Log(double x)
    {
        if (!(x > 0) || double.IsPositiveInfinity(x))
        {
            return x == 0 ? double.NegativeInfinity : x > 0 ? x : double.NaN;
        }

        var (f, e) = Split(x);
        var s = f / (2 + f);
        var z = s * s;
        var half = 0.5 * f * f;
        var r = AtanhTail(z) * z;
        return Math.FusedMultiplyAdd(e, Ln2High, f - (half - Math.FusedMultiplyAdd(s, half + r, e * Ln2Low)));
    }

    /// <summary>Logarithm to base 10; −∞ at 0 and NaN below it.</summary>
    public static double Log10(double x) => Log(x) * Log10E;

    /// <summary>Logarithm to base 2; −∞ at 0 and NaN below it.</summary>
    public static double Log2(double x) => Log(x) * Log2E;

    /// <summary>2 to the power <paramref name="x"/>.</summary>
    public static double Exp2(double x)
    {
        var whole = Math.Round(x);
        return !(Math.Abs(whole) < 1100) ? Exp(x * Ln2High) : Scale(Exp((x - whole) * Ln2High), (int)whole);
    }

    /// <summary>A positive <paramref name="x"/> to the power <paramref name="y"/>.</summary>
    public static double Pow(double x, double y) => y == 0 ? 1 : x == 0 ? 0 : Exp(y * Log(x));

    /// <summary>Sine of an angle in radians, for |x| up to 10⁹.</summary>
    public static double Sin(double x) => SinCos(x).Sin;

    /// <summary>Cosine of an angle in radians, for |x| up to 10⁹.</summary>
    public static double Cos(double x) => SinCos(x).Cos;

    /// <summary>Sine and cosine of an angle in radians, for |x| up to 10⁹.</summary>
    public static (double Sin, double Cos) SinCos(double x)
    {
        var k = Math.Round(x * TwoOverPi);
        var r = Math.FusedMultiplyAdd(-k, HalfPiHigh, x);
        var tail = k * HalfPiMiddle;
        var reduced = r - tail;
        var rest = Math.FusedMultiplyAdd(-k, HalfPiLow, r - reduced - tail);
        var z = reduced * reduced;

        var s = -8.22063524662433e-18;                             // −1/19!
        s = Math.FusedMultiplyAdd(s, z, 2.8114572543455206e-15);
        s = Math.FusedMultiplyAdd(s, z, -7.647163731819816e-13);
        s = Math.FusedMultiplyAdd(s, z, 1.6059043836821613e-10);
        s = Math.FusedMultiplyAdd(s, z, -2.505210838544172e-08);
        s = Math.FusedMultiplyAdd(s, z, 2.7557319223985893e-06);
        s = Math.FusedMultiplyAdd(s, z, -0.0001984126984126984);
        s = Math.FusedMultiplyAdd(s, z, 0.008333333333333333);
        s = Math.FusedMultiplyAdd(s, z, -0.16666666666666666);
        var sin = reduced + Math.FusedMultiplyAdd(s * z, reduced, rest);

        var c = 4.110317623312165e-19;                             // 1/20!
        c = Math.FusedMultiplyAdd(c, z, -1.5619206968586225e-16);
        c = Math.FusedMultiplyAdd(c, z, 4.779477332387385e-14);
        c = Math.FusedMultiplyAdd(c, z, -1.1470745597729725e-11);
        c = Math.FusedMultiplyAdd(c, z, 2.08767569878681e-09);
        c = Math.FusedMultiplyAdd(c, z, -2.755731922398589e-07);
        c = Math.FusedMultiplyAdd(c, z, 2.48015873015873e-05);
        c = Math.FusedMultiplyAdd(c, z, -0.001388888888888889);
        c = Math.FusedMultiplyAdd(c, z, 0.041666666666666664);
        var h = 0.5 * z;
        var w = 1 - h;
        var cos = w + ((1 - w - h) + Math.FusedMultiplyAdd(c * z, z, -reduced * rest));

        return ((long)k & 3) switch
        {
            0 => (sin, cos),
            1 => (cos, -sin),
            2 => (-sin, -cos),
            _ => (-cos, sin),
        };
    }

    /// <summary>Tangent of an angle in radians.</summary>
    public static double Tan(double x)
    {
        var (sin, cos) = SinCos(x);
        return sin / cos;
    }

    /// <summary>e to the power <paramref name="x"/>, less 1, without loss near 0.</summary>
    public static double Expm1(double x)
    {
        if (Math.Abs(x) > 0.35)
        {
            return Exp(x) - 1;
        }

        var p = 7.647163731819816e-13;                             // 1/15!
        p = Math.FusedMultiplyAdd(p, x, 1.1470745597729725e-11);
        p = Math.FusedMultiplyAdd(p, x, 1.6059043836821613e-10);
        p = Math.FusedMultiplyAdd(p, x, 2.08767569878681e-09);
        p = Math.FusedMultiplyAdd(p, x, 2.505210838544172e-08);
        p = Math.FusedMultiplyAdd(p, x, 2.755731922398589e-07);
        p = Math.FusedMultiplyAdd(p, x, 2.7557319223985893e-06);
        p = Math.FusedMultiplyAdd(p, x, 2.48015873015873e-05);
        p = Math.FusedMultiplyAdd(p, x, 0.0001984126984126984);
        p = Math.FusedMultiplyAdd(p, x, 0.001388888888888889);
        p = Math.FusedMultiplyAdd(p, x, 0.008333333333333333);
        p = Math.FusedMultiplyAdd(p, x, 0.041666666666666664);
        p = Math.FusedMultiplyAdd(p, x, 0.16666666666666666);
        p = Math.FusedMultiplyAdd(p, x, 0.5);
        return Math.FusedMultiplyAdd(p * x, x, x);
    }

    /// <summary>Hyperbolic tangent.</summary>
    public static double Tanh(double x)
    {
        var a = Math.Abs(x);
        if (a > 20)
        {
            return Math.CopySign(1, x);
        }

        var e = Expm1(2 * a);
        return Math.CopySign(e / (e + 2), x);
    }

    /// <summary>Angle in radians, −π/2 to π/2, whose tangent is <paramref name="x"/>.</summary>
    public static double Atan(double x)
    {
        var a = Math.Abs(x);
        if (double.IsNaN(a))
        {
            return x;
        }

        if (a > 1)
        {
            return Math.CopySign(HalfPiHigh - (Atan(1 / a) - HalfPiMiddle), x);
        }

        // Two halvings bring a ≤ 1 below 0.2, where the series is short: atan a = 2 atan(a / (1 + √(1 + a²))).
        var t = a;
        var factor = 1.0;
        while (t > 0.2)
        {
            t /= 1 + Math.Sqrt(Math.FusedMultiplyAdd(t, t, 1));
            factor *= 2;
        }

        var z = t * t;
        var p = 0.0;
        for (var n = 25; n >= 3; n -= 2)
        {
            p = Math.FusedMultiplyAdd(-p, z, 1.0 / n);
        }

        return Math.CopySign(factor * Math.FusedMultiplyAdd(-p * z, t, t), x);
    }

    /// <summary>Modified Bessel function of the first kind, order 0, by its power series; for window design.</summary>
    public static double BesselI0(double x)
    {
        var quarter = x * x / 4;
        var term = 1.0;
        var sum = 1.0;
        for (var n = 1; term > sum * 1e-18; n++)
        {
            term *= quarter / ((double)n * n);
            sum += term;
        }

        return sum;
    }

    // x = 2^e · (1 + f) with 1 + f between √½ and √2.
    private static (double Fraction, double Exponent) Split(double x)
    {
        var exponent = 0;
        if (x < 2.2250738585072014e-308)
        {
            x *= 18014398509481984.0;
            exponent = -54;
        }

        var bits = BitConverter.DoubleToInt64Bits(x);
        exponent += (int)(bits >> 52) - 1022;
        var m = BitConverter.Int64BitsToDouble((bits & 0x000F_FFFF_FFFF_FFFF) | 0x3FE0_0000_0000_0000);
        if (m < SqrtHalf)
        {
            m *= 2;
            exponent--;
        }

        return (m - 1, exponent);
    }

    // 2/3 + 2z/5 + 2z²/7 + …: what follows 2s in 2·atanh(s), over s·z, for z = s² ≤ 0.0295.
    private static double AtanhTail(double z)
    {
        var p = 0.0;
        for (var n = 25; n >= 3; n -= 2)
        {
            p = Math.FusedMultiplyAdd(p, z, 2.0 / n);
        }

        return p;
    }

    private static double Scale(double y, int k)
    {
        if (k is > -1000 and < 1000)
        {
            return y * BitConverter.Int64BitsToDouble((long)(1023 + k) << 52);
        }

        var half = k / 2;
        return y * BitConverter.Int64BitsToDouble((long)(1023 + half) << 52) * BitConverter.Int64BitsToDouble((long)(1023 + k - half) << 52);
    }
}
