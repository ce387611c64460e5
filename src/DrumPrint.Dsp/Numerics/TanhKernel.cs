using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Numerics;

/// <summary>tanh |x| = E/(E + 2) with E = e^(2|x|) − 1, for any number of lanes.</summary>
/// <remarks>E and E + 2 are carried in two parts, and the quotient is put right by one step of long division.</remarks>
internal static class TanhKernel
{
    // Past this the nearest double to tanh is 1.
    private const double Ceiling = 22;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Tanh<T>(T x)
        where T : struct, ILaneBits<T>
    {
        var sign = T.AndBits(x, T.FromBits(long.MinValue));
        var size = T.Lesser(T.XorBits(x, sign), Ceiling);
        var (main, minor) = ExponentialKernel.Expm1(size + size);
        var e = main + minor;
        var eLow = (main - e) + minor;
        var d = e + 2;
        var back = d - e;
        var dLow = ((e - (d - back)) + ((T)2 - back)) + eLow;
        var reciprocal = (T)1 / d;
        var quotient = e * reciprocal;
        var remainder = T.Fma(-quotient, d, e) + T.Fma(-quotient, dLow, eLow);
        return T.OrBits(T.Fma(remainder, reciprocal, quotient), sign);
    }
}
