using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Numerics;

/// <summary>Sine and cosine of k·π/2 + r, |r| ≤ π/4, for any number of lanes.</summary>
/// <remarks>
/// π/2 is split in three doubles. The fused multiply-add subtracts the first product exactly. So r has an absolute error
/// below 10⁻³⁸ for |x| ≤ 2³⁰. The nearest double to a multiple of π/2 leaves 10⁻²⁰ or so, far more than that. The series
/// are minimax polynomials, relative error under 2⁻⁵⁸.
/// </remarks>
internal static class SineKernel
{
    /// <summary>The largest angle <see cref="Reduce"/> takes.</summary>
    public const double Limit = 1L << 30;

    public const double HalfPiHigh = 1.5707963267948966;
    public const double HalfPiMiddle = 6.123233995736766e-17;

    private const double HalfPiLow = -1.4973849048591698e-33;
    private const double TwoOverPi = 0.6366197723675814;
    private const double Shifter = 6755399441055744.0;

    /// <summary>Sine and cosine of an angle from 0 to <see cref="Limit"/>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T Sin, T Cos) SinCos<T>(T x)
        where T : struct, ILaneBits<T>
    {
        var (r, low, k) = Reduce(x);
        return Turn(Sin(r, low), Cos(r, low), k);
    }

    /// <summary>Sine and cosine after adding k quarter turns; k in the lowest bits.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T Sin, T Cos) Turn<T>((T Main, T Minor) sine, (T Main, T Minor) cosine, T k)
        where T : struct, ILaneBits<T>
    {
        var sin = sine.Main + sine.Minor;
        var cos = cosine.Main + cosine.Minor;
        var signMask = T.FromBits(long.MinValue);
        var sinSign = T.AndBits(T.ShiftBitsLeft(k, 62), signMask);
        var cosSign = T.AndBits(T.ShiftBitsLeft(T.AddBits(k, T.FromBits(1)), 62), signMask);
        return (
            T.XorBits(T.ChooseByLowestBit(k, cos, sin), sinSign),
            T.XorBits(T.ChooseByLowestBit(k, sin, cos), cosSign));
    }

    /// <summary>r in two parts, and a bit pattern whose lowest bits are k.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T Remainder, T Low, T QuarterTurns) Reduce<T>(T x)
        where T : struct, ILaneBits<T>
    {
        var shifted = T.Fma(x, TwoOverPi, Shifter);
        var k = shifted - Shifter;
        var coarse = T.Fma(-k, HalfPiHigh, x);
        var middle = k * HalfPiMiddle;
        var middleLow = T.Fma(k, HalfPiMiddle, -middle);

        // What the difference loses, whichever of the two is greater.
        var r = coarse - middle;
        var back = r - coarse;
        var lost = (coarse - (r - back)) - (middle + back);
        return (r, lost - T.Fma(k, HalfPiLow, middleLow), shifted);
    }

    /// <summary>Sine of r + low, in two parts to be added.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T Main, T Minor) Sin<T>(T r, T low)
        where T : struct, ILaneBits<T>
    {
        var z = r * r;
        var z2 = z * z;
        var p01 = T.Fma(0.008333333333322538, z, -0.16666666666666632);
        var p23 = T.Fma(2.7557313713982725e-06, z, -0.0001984126982988553);
        var p45 = T.Fma(1.5896940211800964e-10, z, -2.505076102293837e-08);
        var series = T.Fma(T.Fma(p45, z2, p23), z2, p01);
        return (r, T.Fma(r * z, series, T.Fma(z * -0.5, low, low)));
    }

    /// <summary>Cosine of r + low, in two parts to be added.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T Main, T Minor) Cos<T>(T r, T low)
        where T : struct, ILaneBits<T>
    {
        var z = r * r;
        var zLow = T.Fma(r, r, -z);
        var z2 = z * z;
        var p01 = T.Fma(-0.001388888888887611, z, 0.041666666666666616);
        var p23 = T.Fma(-2.755731462978462e-07, z, 2.4801587290561206e-05);
        var p45 = T.Fma(-1.1361267835772634e-11, z, 2.087575740874545e-09);
        var series = T.Fma(T.Fma(p45, z2, p23), z2, p01);
        var half = z * 0.5;
        var main = (T)1 - half;
        var lost = ((T)1 - main) - half;
        return (main, T.Fma(z2, series, lost) - T.Fma(r, low, zLow * 0.5));
    }
}
