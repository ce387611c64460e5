using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Numerics;

/// <summary>
/// e^(x + tail) as 2^k · (1 + q), where the argument is k·ln 2 + r and |r| ≤ ½ ln 2, for any number of lanes.
/// </summary>
/// <remarks>
/// With a fused multiply-add, x − k·(ln 2 rounded) is exact: it is a multiple of the finer grid of the two and less
/// than ½. The rest of ln 2 and the tail go into r, and what r loses in rounding is kept as c. (e^r − 1 − r − r²/2)/r³ is
/// a minimax polynomial of degree 9, relative error of e^r − 1 under 2⁻⁶¹.
/// </remarks>
internal static class ExponentialKernel
{
    public const double Ln2High = 0.6931471805599453;
    public const double Ln2Low = 2.3190468138462996e-17;

    private const double Log2E = 1.4426950408889634;

    // Added to a number below 2⁵¹ it leaves the nearest whole number in the lowest bits.
    private const double Shifter = 6755399441055744.0;

    /// <summary>e^(x + tail) for |x| ≤ 1000: a number from 0.7 to 1.42, and a bit pattern whose lowest bits are k.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T Significand, T ExponentBits) Exp<T>(T x, T tail)
        where T : struct, ILaneBits<T>
    {
        var (r, c, k) = Reduce(x, tail);
        return (OnePlus(r, c), k);
    }

    /// <summary>2^x for |x| ≤ 1100, as <see cref="Exp"/> gives it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T Significand, T ExponentBits) Exp2<T>(T x)
        where T : struct, ILaneBits<T>
    {
        var shifted = x + Shifter;
        var rest = x - (shifted - Shifter);
        var r = rest * Ln2High;
        var c = T.Fma(rest, Ln2Low, T.Fma(rest, Ln2High, -r));
        return (OnePlus(r, c), shifted);
    }

    /// <summary>e^x − 1 for −36 ≤ x ≤ 44, in two parts.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T High, T Low) Expm1<T>(T x)
        where T : struct, ILaneBits<T>
    {
        var (r, c, k) = Reduce(x, 0);
        var square = r * r;
        var squareLow = T.Fma(r, r, -square);
        var half = square * 0.5;
        var q = r + half;
        var qLow = ((r - q) + half) + T.Fma(square * r, Series(r), T.Fma(squareLow, 0.5, T.Fma(c, r, c)));

        // 2^k · q + (2^k − 1): the second is 0 or the greater, so what the sum loses is found in three operations.
        var scale = Scale((T)1, k);
        var whole = scale - 1;
        var wholeLow = (scale - whole) - 1;
        var part = scale * q;
        var high = whole + part;
        return (high, ((whole - high) + part) + T.Fma(scale, qLow, wholeLow));
    }

    /// <summary>Multiplies by 2^k, given a bit pattern whose lowest bits are k, where the result is a normal number.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Scale<T>(T significand, T exponentBits)
        where T : struct, ILaneBits<T> =>
        T.AddBits(significand, T.ShiftBitsLeft(exponentBits, 52));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (T Remainder, T Lost, T ExponentBits) Reduce<T>(T x, T tail)
        where T : struct, ILaneBits<T>
    {
        var shifted = T.Fma(x, Log2E, Shifter);
        var k = shifted - Shifter;
        var coarse = T.Fma(-k, Ln2High, x);
        var fine = T.Fma(-k, Ln2Low, tail);
        var r = coarse + fine;
        return (r, (coarse - r) + fine, shifted);
    }

    // e^(r + c)
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T OnePlus<T>(T r, T c)
        where T : struct, ILaneBits<T>
    {
        var sum = r + 1;
        var lost = ((T)1 - sum) + r;
        var square = r * r;
        return sum + T.Fma(square * r, Series(r), T.Fma(square, 0.5, lost + T.Fma(c, r, c)));
    }

    // (e^r − 1 − r − r²/2) / r³
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Series<T>(T r)
        where T : struct, ILaneBits<T>
    {
        var r2 = r * r;
        var r4 = r2 * r2;
        var p01 = T.Fma(0.0416666666666667, r, 0.16666666666666677);
        var p23 = T.Fma(0.0013888888888866926, r, 0.008333333333321645);
        var p45 = T.Fma(2.4801587360418893e-05, r, 0.00019841269886094597);
        var p67 = T.Fma(2.755724285568098e-07, r, 2.755724423932521e-06);
        var p89 = T.Fma(2.092441864182897e-09, r, 2.510902681816609e-08);
        var p03 = T.Fma(p23, r2, p01);
        var p47 = T.Fma(p67, r2, p45);
        return T.Fma(T.Fma(p89, r4, p47), r4, p03);
    }
}
