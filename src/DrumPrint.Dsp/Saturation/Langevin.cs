using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Saturation;

/// <summary>Langevin's function L(x) = coth x − 1/x: how far a field of x times the thermal one turns a magnet; and its antiderivatives.</summary>
/// <remarks>
/// Up to 4, L(x)/x is a ratio of two polynomials of degree four in x². Its coefficients make the largest relative error
/// smallest, with the slope at zero held at ⅓. Remez's exchange found them in arithmetic of 40 digits. Relative error under
/// 4·10⁻¹⁴ there. Above, the exponential form, under 2·10⁻¹⁵. Only + − × ÷, fused products and bit moves, so lanes of any width
/// agree.
/// </remarks>
internal static class Langevin
{
    /// <summary>Up to here, included, <see cref="Near"/> will do.</summary>
    public const double NearEnd = 4;

    // Past this the exponential no longer reaches the last digit.
    private const double ExponentialEnd = 40;

    private const double Log2E = 1.4426950408889634;

    // ln 2 in two parts; the first has zeros to spare, so that its product with a small whole number is exact.
    private const double Ln2High = 0.6931471803691238;
    private const double Ln2Low = 1.9082149292705877e-10;

    // Adding it leaves a whole number in the lowest bits.
    private const double Rounder = 6755399441055744;

    // π²/12: what is missing for ever of the second antiderivative of 1 − 1/x.
    private const double Missing = 0.8224670334241132;

    public static double Of(double x)
    {
        Lane1 field = x;
        Fraction(in field, out var top, out var bottom);
        return x * (top / bottom).Value;
    }

    /// <summary>L(x)/x as a fraction where |x| is at most <see cref="NearEnd"/>, for those who have something else to divide by.</summary>
    /// <param name="x">The field.</param>
    /// <param name="top">What is divided.</param>
    /// <param name="bottom">What it is divided by, from 1 to 5.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Near<T>(T x, out T top, out T bottom)
        where T : struct, ILaneBits<T>
    {
        var z = x * x;
        top = T.Fma(z, 1.2950288530567114e-09, 2.0360753619265717e-06);
        top = T.Fma(top, z, 0.00043075473476957914);
        top = T.Fma(top, z, 0.024387010353512563);
        top = T.Fma(top, z, 0.3333333333333333);
        bottom = T.Fma(z, 7.528150163818065e-08, 3.756091209463547e-05);
        bottom = T.Fma(bottom, z, 0.00426490437106590292);
        bottom = T.Fma(bottom, z, 0.13982769772689318);
        bottom = T.Fma(bottom, z, 1);
    }

    /// <summary>L(x)/x as a fraction for any x; the bottom is 1 beyond <see cref="NearEnd"/>.</summary>
    [MethodImpl(MethodImplOptions.NoInlining | MethodImplOptions.AggressiveOptimization)]
    public static void Fraction<T>(ref readonly T x, out T top, out T bottom)
        where T : struct, ILaneBits<T>
    {
        // (a(1 + t) − (1 − t)) / (a(1 − t)) with a = |x| and t = e^−2a; once more over a.
        var a = Size(x);
        var t = ExpOfMinus(T.Lesser(T.Greater(a, NearEnd), ExponentialEnd) * 2);
        var rest = (T)1 - t;
        var far = ((a * ((T)1 + t)) - rest) / (a * a * rest);
        Near(x, out top, out bottom);
        top = T.WhereLess(NearEnd, a, far, top);
        bottom = T.WhereLess(NearEnd, a, 1, bottom);
    }

    /// <summary>The first antiderivative, ln(sinh x / x), and the second, both 0 at 0, for any x up to 10⁶ or so.</summary>
    /// <remarks>Up to 4 they are ratios of polynomials as above, good to 2.1·10⁻¹⁰ and 9.2·10⁻¹¹ of them. Above they are x − ln
    /// 2x and its integral, with what the exponential adds.</remarks>
    // By itself: too much for what it is part of to be compiled in one piece.
    [MethodImpl(MethodImplOptions.NoInlining | MethodImplOptions.AggressiveOptimization)]
    public static void Integrate<T>(ref readonly T x, out Antiderivatives<T> result)
        where T : struct, ILaneBits<T>
    {
        var a = Size(x);
        var z = a * a;
        var p = T.Fma(T.Fma(T.Fma(T.Fma(2.16033110473679454e-8, z, 0.0000134549547994493668), z, 0.00109536186734459593), z, 0.0251893825831067632), z, 0.166666666625832869);
        var q = T.Fma(T.Fma(T.Fma(T.Fma(8.92748398857894164e-7, z, 0.00020253630297977505), z, 0.0106047613602593206), z, 0.184469626293443154), z, 1);
        var first = z * p / q;
        p = T.Fma(T.Fma(T.Fma(T.Fma(5.91089003024844106e-9, z, 3.83335072843198476e-6), z, 0.000328185738796571216), z, 0.00796694460743484), z, 0.0555555555495827021);
        q = T.Fma(T.Fma(T.Fma(T.Fma(5.36242136816561808e-7, z, 0.000139063945180953593), z, 0.00826841590648470694), z, 0.163405001822298562), z, 1);
        var second = z * x * p / q;

        if (T.AllWithin(a, 0, NearEnd))
        {
            result = new Antiderivatives<T>(first, second);
            return;
        }

        var far = T.Greater(a, NearEnd);
        var (high, low) = LogarithmKernel.Log<T>(far * 2, LogarithmKernel.ExponentBias);
        var log = high + low;
        var t = ExpOfMinus(T.Lesser(far, ExponentialEnd) * 2);
        var farFirst = T.Fma(-t, T.Fma(t, T.Fma(t, 1.0 / 3, 0.5), 1), far - log);
        var dilogarithm = t * T.Fma(t, T.Fma(t, 1.0 / 9, 0.25), 1);
        var farSecond = T.Fma(far, T.Fma(far, 0.5, (T)1 - log), T.Fma(dilogarithm, 0.5, -Missing));
        var sign = T.AndBits(x, T.FromBits(long.MinValue));
        result = new Antiderivatives<T>(T.WhereLess(NearEnd, a, farFirst, first), T.WhereLess(NearEnd, a, T.XorBits(farSecond, sign), second));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Size<T>(T x)
        where T : struct, ILaneBits<T> => T.AndBits(x, T.FromBits(long.MaxValue));

    // e^−x for x from 8 to 80, good to 10⁻¹⁶ of 1.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T ExpOfMinus<T>(T x)
        where T : struct, ILaneBits<T>
    {
        var shifted = (T)Rounder - (x * Log2E);
        var k = shifted - Rounder;
        var r = -x - (k * Ln2High) - (k * Ln2Low);
        T e = 2.755731922398589e-07;                // 1/10!
        e = T.Fma(e, r, 2.7557319223985893e-06);
        e = T.Fma(e, r, 2.48015873015873e-05);
        e = T.Fma(e, r, 0.0001984126984126984);
        e = T.Fma(e, r, 0.001388888888888889);
        e = T.Fma(e, r, 0.008333333333333333);
        e = T.Fma(e, r, 0.041666666666666664);
        e = T.Fma(e, r, 0.16666666666666666);
        e = T.Fma(e, r, 0.5);
        e = T.Fma(e, r, 1);
        e = T.Fma(e, r, 1);

        // The whole number in the low bits, plus 1023, is the exponent field of 2^k.
        return e * T.ShiftBitsLeft(T.AddBits(shifted, T.FromBits(1023)), 52);
    }
}
