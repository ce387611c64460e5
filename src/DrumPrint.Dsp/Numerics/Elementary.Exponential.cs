using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Numerics;

public static partial class Elementary
{
    private const double ExpFloor = -708;
    private const double ExpCeiling = 709.782712893384;

    /// <summary>e to the power <paramref name="x"/>, any x; within 0.8 ulp (0.65 where the result is normal).</summary>
    public static double Exp(double x)
    {
        if (x is >= ExpFloor and <= ExpCeiling)
        {
            return ExpFunction.OnMainRange<Lane1>(x).Value;
        }

        return double.IsNaN(x) ? x : ExpOfSum(x, 0);
    }

    /// <summary>2 to the power <paramref name="x"/>, any x; within 0.8 ulp, exact for whole numbers.</summary>
    public static double Exp2(double x)
    {
        if (x > 1024)
        {
            return double.PositiveInfinity;
        }

        if (x < -1080)
        {
            return 0;
        }

        if (double.IsNaN(x))
        {
            return x;
        }

        var (significand, k) = ExponentialKernel.Exp2<Lane1>(x);
        return Scale(significand, k);
    }

    /// <summary>e to the power <paramref name="x"/>, less 1, without loss near 0, any x; within 0.7 ulp.</summary>
    public static double Expm1(double x)
    {
        if (x == 0 || double.IsNaN(x))
        {
            return x;
        }

        // Below −36 the difference rounds once; above 44 the 1 is too small to count.
        if (x is < -36 or > 44)
        {
            return x < 0 ? Exp(x) - 1 : Exp(x);
        }

        var (high, low) = ExponentialKernel.Expm1<Lane1>(x);
        return (high + low).Value;
    }

    // e^(x + tail), past either end of the range as well.
    internal static double ExpOfSum(double x, double tail)
    {
        if (x > 710)
        {
            return double.PositiveInfinity;
        }

        if (x < -746)
        {
            return 0;
        }

        var (significand, k) = ExponentialKernel.Exp<Lane1>(x, tail);
        return Scale(significand, k);
    }

    // Times 2^k with one rounding, down to subnormals and up to infinity.
    private static double Scale(Lane1 significand, Lane1 exponentBits)
    {
        var k = (short)BitConverter.DoubleToInt64Bits(exponentBits.Value);
        const int Margin = 200;
        return k switch
        {
            < -1020 => significand.Value * PowerOfTwo(k + Margin) * PowerOfTwo(-Margin),
            > 1022 => significand.Value * PowerOfTwo(k - 2) * 4,
            _ => significand.Value * PowerOfTwo(k),
        };
    }

    internal readonly struct ExpFunction : ILaneFunction
    {
        public static double At(double x) => Exp(x);

        public static bool IsOnMainRange<T>(T x)
            where T : struct, ILaneBits<T> =>
            T.AllWithin(x, ExpFloor, ExpCeiling);

        public static T OnMainRange<T>(T x)
            where T : struct, ILaneBits<T>
        {
            var (significand, k) = ExponentialKernel.Exp(x, (T)0);
            return ExponentialKernel.Scale(significand, k);
        }
    }
}
