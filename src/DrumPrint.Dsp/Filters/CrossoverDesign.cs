using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Filters;

/// <summary>Sections that part a signal at a frequency into two whose sum has every level it had.</summary>
/// <remarks>
/// Two Butterworth filters of one kind after another, each side 6 dB down at the frequency. Both sides turn the phase alike, and their
/// sum is an all-pass: S. H. Linkwitz, "Active Crossover Networks for Noncoincident Drivers", J. Audio Eng. Soc. 24(1), 1976 (from
/// memory). The bilinear transform, its frequency put right, keeps that to the last bits.
/// </remarks>
public static class CrossoverDesign
{
    /// <summary>What lies below.</summary>
    /// <param name="freqHz">Where both sides are 6 dB down.</param>
    /// <param name="slopeDbPerOct">24 or 48.</param>
    /// <param name="sampleRate">Hertz.</param>
    public static BiquadCoefficients[] Below(double freqHz, int slopeDbPerOct, int sampleRate) => Twice(freqHz, slopeDbPerOct, sampleRate, static (t, q) =>
    {
        var (d0, square) = Denominator(t, q);
        return new(square / d0, 4 * square / d0, 4 * square / d0, ((4 * square) + (2 * t / q)) / d0, 4 * square / d0);
    });

    /// <summary>What lies above.</summary>
    /// <inheritdoc cref="Below"/>
    public static BiquadCoefficients[] Above(double freqHz, int slopeDbPerOct, int sampleRate) => Twice(freqHz, slopeDbPerOct, sampleRate, static (t, q) =>
    {
        var (d0, square) = Denominator(t, q);
        return new(1 / d0, 0, 0, ((4 * square) + (2 * t / q)) / d0, 4 * square / d0);
    });

    /// <summary>What both sides are together: every level as it was, the phase turned.</summary>
    /// <inheritdoc cref="Below"/>
    public static BiquadCoefficients[] Both(double freqHz, int slopeDbPerOct, int sampleRate) =>
        [.. Qualities(slopeDbPerOct).Select(q => AllPassDesign.SecondOrder(freqHz, q, sampleRate))];

    /// <summary>Level of what lies below, as a factor: 1 / (1 + Ωⁿ) with n of 4 or 8. What lies above is the rest up to 1.</summary>
    /// <param name="ratio">Ω: the frequency over the one where both are 6 dB down.</param>
    /// <param name="slopeDbPerOct">24 or 48.</param>
    public static double LevelBelow(double ratio, int slopeDbPerOct)
    {
        var square = ratio * ratio;
        var fourth = square * square;
        return 1 / (1 + (slopeDbPerOct == 24 ? fourth : fourth * fourth));
    }

    private static BiquadCoefficients[] Twice(double freqHz, int slopeDbPerOct, int sampleRate, Func<double, double, BiquadCoefficients> section)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(freqHz);
        BiquadDesign.CheckFrequency(freqHz, sampleRate);
        var t = Elementary.Tan(Math.PI * freqHz / sampleRate);
        BiquadCoefficients[] once = [.. Qualities(slopeDbPerOct).Select(q => section(t, q))];
        return [.. once, .. once];
    }

    // q of each pole pair of a Butterworth filter of half the order.
    private static double[] Qualities(int slopeDbPerOct)
    {
        var pairs = slopeDbPerOct switch
        {
            24 => 1,
            48 => 2,
            _ => throw new ArgumentOutOfRangeException(nameof(slopeDbPerOct), slopeDbPerOct, "A crossover falls by 24 or 48 dB per octave."),
        };
        return [.. Enumerable.Range(0, pairs).Select(i => 1 / (2 * Elementary.Cos(Math.PI * (i + 0.5) / (2 * pairs))))];
    }

    private static (double D0, double Square) Denominator(double t, double q) => (1 + (t / q) + (t * t), t * t);
}
