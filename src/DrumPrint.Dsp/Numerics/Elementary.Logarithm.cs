using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Numerics;

public static partial class Elementary
{
    private const double Log10EHigh = 0.4342944819032518;
    private const double Log10ELow = 1.098319650216765e-17;

    // Subnormals are lifted by 2⁵⁴ to be normal.
    private const double Lift = 18014398509481984.0;

    /// <summary>Natural logarithm, any x; within 0.7 ulp, −∞ at 0 and NaN below it.</summary>
    public static double Log(double x)
    {
        if (IsNormalPositive(x))
        {
            return LogFunction.OnMainRange<Lane1>(x).Value;
        }

        if (!IsSubnormalPositive(x))
        {
            return LogOfSpecial(x);
        }

        var (high, low) = LogarithmKernel.Log<Lane1>(x * Lift, LogarithmKernel.ExponentBias + 54);
        return (high + low).Value;
    }

    /// <summary>Logarithm to base 2, any x; within 0.8 ulp, exact for powers of 2, −∞ at 0 and NaN below it.</summary>
    public static double Log2(double x)
    {
        if (IsNormalPositive(x))
        {
            return LogarithmKernel.Log2<Lane1>(x, LogarithmKernel.ExponentBias).Value;
        }

        return IsSubnormalPositive(x)
            ? LogarithmKernel.Log2<Lane1>(x * Lift, LogarithmKernel.ExponentBias + 54).Value
            : LogOfSpecial(x);
    }

    /// <summary>Logarithm to base 10, any x; within 0.7 ulp, exact for powers of 10, −∞ at 0 and NaN below it.</summary>
    public static double Log10(double x) => ScaledLog(x, Log10EHigh, Log10ELow);

    /// <summary>Natural logarithm of 1 + <paramref name="x"/>, without loss near 0, any x; within 0.7 ulp, −∞ at −1 and NaN below it.</summary>
    public static double Log1p(double x)
    {
        if (!(x > -1) || x == 0 || double.IsPositiveInfinity(x))
        {
            return x == 0 ? x : x == -1 ? double.NegativeInfinity : x > 0 ? x : double.NaN;
        }

        // ln(sum + lost) = ln sum + lost/sum, to second order in lost.
        var (sum, lost) = DoubleDouble.Sum(1, x);
        var (high, low) = LogarithmKernel.Log<Lane1>(sum, LogarithmKernel.ExponentBias);
        var main = DoubleDouble.Sum(high.Value, lost / sum);
        return main.High + (main.Low + low.Value);
    }

    /// <summary>ln x times a constant given in two parts.</summary>
    internal static double ScaledLog(double x, double factorHigh, double factorLow)
    {
        if (IsNormalPositive(x))
        {
            return LogarithmKernel.Scaled<Lane1>(x, LogarithmKernel.ExponentBias, factorHigh, factorLow).Value;
        }

        return IsSubnormalPositive(x)
            ? LogarithmKernel.Scaled<Lane1>(x * Lift, LogarithmKernel.ExponentBias + 54, factorHigh, factorLow).Value
            : LogOfSpecial(x);
    }

    internal static bool IsOnLogRange<T>(T x)
        where T : struct, ILaneBits<T> =>
        T.AllWithin(x, SmallestNormal, double.MaxValue);

    private static bool IsNormalPositive(double x) => x is >= SmallestNormal and <= double.MaxValue;

    private static bool IsSubnormalPositive(double x) => x is > 0 and < SmallestNormal;

    private static double LogOfSpecial(double x) =>
        x == 0 ? double.NegativeInfinity : x > 0 ? x : double.NaN;

    internal readonly struct LogFunction : ILaneFunction
    {
        public static double At(double x) => Log(x);

        public static bool IsOnMainRange<T>(T x)
            where T : struct, ILaneBits<T> =>
            IsOnLogRange(x);

        public static T OnMainRange<T>(T x)
            where T : struct, ILaneBits<T>
        {
            var (high, low) = LogarithmKernel.Log(x, (T)LogarithmKernel.ExponentBias);
            return high + low;
        }
    }
}
