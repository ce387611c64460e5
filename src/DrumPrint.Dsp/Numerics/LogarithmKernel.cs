using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Numerics;

/// <summary>Logarithms of x = 2^e · (1 + f) with 1 + f from √½ to √2, for any number of lanes.</summary>
/// <remarks>
/// With s = f/(2 + f), ln(1 + f) = 2·atanh s = f − f²/2 + s·(f²/2 + R(s²)). The first two terms are carried without
/// loss; the third is at most a fifteenth of the whole, so its roundings cost little. R(z)/z is a minimax polynomial of
/// degree 6, relative error of the logarithm under 2⁻⁵⁹.
/// </remarks>
internal static class LogarithmKernel
{
    /// <summary>What <see cref="Split"/> subtracts to give e for a normal x.</summary>
    public const double ExponentBias = 4503599627370496.0 + 1023;

    private const long One = 0x3FF0_0000_0000_0000;
    private const long SqrtHalf = 0x3FE6_A09E_667F_3BCD;
    private const long SignificandMask = 0x000F_FFFF_FFFF_FFFF;

    // 2⁵²: its lowest bits count ones.
    private const long WholeNumber = 0x4330_0000_0000_0000;

    // The first 42 bits of ln 2, so that multiplying by an exponent is exact, and the rest.
    private const double Ln2Head = 0.6931471805598903;
    private const double Ln2Tail = 5.497923018708371e-14;

    private const double Log2EHigh = 1.4426950408889634;
    private const double Log2ELow = 2.0355273740931033e-17;

    /// <summary>ln x, in two parts.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T High, T Low) Log<T>(T x, T bias)
        where T : struct, ILaneBits<T>
    {
        var (e, f) = Split(x, bias);
        var (main, rest) = OfOnePlus(f);
        var high = T.Fma(e, Ln2Head, main);
        var lost = T.Fma(e, Ln2Head, -high) + main;
        return (high, lost + T.Fma(e, Ln2Tail, rest));
    }

    /// <summary>Logarithm of x to base 2.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Log2<T>(T x, T bias)
        where T : struct, ILaneBits<T>
    {
        var (e, f) = Split(x, bias);
        var (main, rest) = OfOnePlus(f);
        var product = main * Log2EHigh;
        var productLow = T.Fma(main, Log2EHigh, -product);
        var high = e + product;
        var lost = (e - high) + product;
        return high + (lost + T.Fma(rest, Log2EHigh, T.Fma(main, Log2ELow, productLow)));
    }

    /// <summary>ln x times a constant in two parts.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Scaled<T>(T x, T bias, double factorHigh, double factorLow)
        where T : struct, ILaneBits<T>
    {
        var (high, low) = Log(x, bias);
        var product = high * factorHigh;
        var productLow = T.Fma(high, factorHigh, -product);
        return product + T.Fma(low, factorHigh, T.Fma(high, factorLow, productLow));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (T Exponent, T Fraction) Split<T>(T x, T bias)
        where T : struct, ILaneBits<T>
    {
        var shifted = T.AddBits(x, T.FromBits(One - SqrtHalf));
        var exponent = T.OrBits(T.ShiftBitsRight(shifted, 52), T.FromBits(WholeNumber)) - bias;
        var significand = T.AddBits(T.AndBits(shifted, T.FromBits(SignificandMask)), T.FromBits(SqrtHalf));
        return (exponent, significand - 1);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (T High, T Low) OfOnePlus<T>(T f)
        where T : struct, ILaneBits<T>
    {
        var halfF = f * 0.5;
        var half = halfF * f;
        var halfLow = T.Fma(halfF, f, -half);
        var main = f - half;
        var lost = ((f - main) - half) - halfLow;
        var s = f / (f + 2);
        var z = s * s;
        return (main, T.Fma(s, T.Fma(z, Series(z), half), lost));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Series<T>(T z)
        where T : struct, ILaneBits<T>
    {
        var z2 = z * z;
        var p01 = T.Fma(0.3999999999941335, z, 0.6666666666666734);
        var p23 = T.Fma(0.2222219851460754, z, 0.2857142874283616);
        var p45 = T.Fma(0.15313945965873837, z, 0.18183567924487273);
        var p46 = T.Fma(0.1479710972748302, z2, p45);
        return T.Fma(T.Fma(p46, z2, p23), z2, p01);
    }
}
