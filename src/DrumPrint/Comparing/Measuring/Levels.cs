using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Comparing.Measuring;

/// <summary>Powers of signals and their ratios in decibels.</summary>
internal static class Levels
{
    /// <summary>10·log₁₀ of a power or a ratio of powers; −∞ for 0.</summary>
    public static double Db(double power) => power > 0 ? 10 * Elementary.Log10(power) : double.NegativeInfinity;

    /// <summary>Sum of the squares of a signal.</summary>
    public static double Energy(ReadOnlySpan<double> signal)
    {
        var sum = 0.0;
        foreach (var sample in signal)
        {
            sum += sample * sample;
        }

        return sum;
    }

    /// <summary>Mean of the squares over all channels.</summary>
    public static double Power(double[][] channels)
    {
        var sum = 0.0;
        foreach (var channel in channels)
        {
            sum += Energy(channel);
        }

        return channels[0].Length == 0 ? 0 : sum / channels[0].Length / channels.Length;
    }

    /// <summary>Sum of the products of two signals.</summary>
    public static double Product(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var sum = 0.0;
        for (var n = 0; n < a.Length; n++)
        {
            sum += a[n] * b[n];
        }

        return sum;
    }
}
