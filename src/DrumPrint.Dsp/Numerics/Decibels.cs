using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Numerics;

/// <summary>Conversion between amplitude and decibels (20 dB per factor of ten).</summary>
public static class Decibels
{
    private const double NepersPerDecibelHigh = 0.11512925464970228;
    private const double NepersPerDecibelLow = 5.7995642524661006e-18;
    private const double DecibelsPerNeperHigh = 8.685889638065037;
    private const double DecibelsPerNeperLow = -2.244252798067096e-16;

    // Gains from 10⁻³⁰⁰ to 10³⁰⁰: what lies beyond is met by the slower way.
    private const double Span = 6000;

    /// <summary>Linear gain of a level in decibels, any level; within 0.8 ulp, 0 for −∞.</summary>
    public static double ToGain(double decibels) =>
        decibels is >= -Span and <= Span
            ? ToGainFunction.OnMainRange<Lane1>(decibels).Value
            : ToDistantGain(decibels);

    /// <summary>Level in decibels of a linear amplitude, any gain ≥ 0; within 0.75 ulp, −∞ for 0, NaN below it.</summary>
    public static double FromGain(double gain) => Elementary.ScaledLog(gain, DecibelsPerNeperHigh, DecibelsPerNeperLow);

    /// <summary><see cref="ToGain(double)"/> of each value; the spans may be the same one.</summary>
    public static void ToGain(ReadOnlySpan<double> decibels, Span<double> gains) =>
        Lanewise.Apply<ToGainFunction>(decibels, gains);

    /// <summary><see cref="FromGain(double)"/> of each value; the spans may be the same one.</summary>
    public static void FromGain(ReadOnlySpan<double> gains, Span<double> decibels) =>
        Lanewise.Apply<FromGainFunction>(gains, decibels);

    private static double ToDistantGain(double decibels)
    {
        var (nepers, rest) = ToNepers<Lane1>(decibels);
        return Elementary.ExpOfSum(nepers.Value, rest.Value);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (T Main, T Minor) ToNepers<T>(T decibels)
        where T : struct, ILaneBits<T>
    {
        var main = decibels * NepersPerDecibelHigh;
        return (main, T.Fma(decibels, NepersPerDecibelLow, T.Fma(decibels, NepersPerDecibelHigh, -main)));
    }

    internal readonly struct ToGainFunction : ILaneFunction
    {
        public static double At(double x) => ToGain(x);

        public static bool IsOnMainRange<T>(T x)
            where T : struct, ILaneBits<T> =>
            T.AllWithin(x, -Span, Span);

        public static T OnMainRange<T>(T x)
            where T : struct, ILaneBits<T>
        {
            var (nepers, rest) = ToNepers(x);
            var (significand, k) = ExponentialKernel.Exp(nepers, rest);
            return ExponentialKernel.Scale(significand, k);
        }
    }

    internal readonly struct FromGainFunction : ILaneFunction
    {
        public static double At(double x) => FromGain(x);

        public static bool IsOnMainRange<T>(T x)
            where T : struct, ILaneBits<T> =>
            Elementary.IsOnLogRange(x);

        public static T OnMainRange<T>(T x)
            where T : struct, ILaneBits<T> =>
            LogarithmKernel.Scaled(x, (T)LogarithmKernel.ExponentBias, DecibelsPerNeperHigh, DecibelsPerNeperLow);
    }
}
