using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Filters;

/// <summary>Turns the settings of a filter into second-order sections.</summary>
public static class BiquadDesign
{
    /// <summary>Highest usable frequency as a part of the sample rate.</summary>
    private const double HighestPart = 0.49;

    /// <summary>Butterworth high-pass: −3.01 dB at <paramref name="freqHz"/>, 6 dB per octave for each order.</summary>
    /// <exception cref="SettingsException">The frequency is too high for the rate.</exception>
    public static BiquadCoefficients[] HighPass(double freqHz, int order, int sampleRate) =>
        Butterworth(freqHz, order, sampleRate, isHighPass: true);

    /// <summary>Butterworth low-pass: −3.01 dB at <paramref name="freqHz"/>, 6 dB per octave for each order.</summary>
    /// <exception cref="SettingsException">The frequency is too high for the rate.</exception>
    public static BiquadCoefficients[] LowPass(double freqHz, int order, int sampleRate) =>
        Butterworth(freqHz, order, sampleRate, isHighPass: false);

    /// <summary>Throws when a frequency cannot be reached at a sample rate.</summary>
    /// <exception cref="SettingsException">The frequency is too high for the rate.</exception>
    public static void CheckFrequency(double freqHz, int sampleRate, Parameter? parameter = null)
    {
        if (freqHz >= HighestPart * sampleRate)
        {
            throw new SettingsException(parameter, FormattableString.Invariant(
                $"{freqHz:0.###} Hz is too high at a sample rate of {sampleRate} Hz; the highest frequency is {Math.Ceiling(HighestPart * sampleRate) - 1:0} Hz."));
        }
    }

    private static BiquadCoefficients[] Butterworth(double freqHz, int order, int sampleRate, bool isHighPass)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(freqHz);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(order);
        CheckFrequency(freqHz, sampleRate);
        var k = Elementary.Tan(Math.PI * freqHz / sampleRate);
        var sections = new BiquadCoefficients[(order + 1) / 2];
        for (var i = 0; i < order / 2; i++)
        {
            // 1/Q of pole pair i, counted from the most damped.
            var damping = 2 * Elementary.Cos(Math.PI * (((order & 1) == 0 ? i + 0.5 : i + 1) / order));
            var a0 = 1 + (damping * k) + (k * k);
            var d1 = ((2 * damping * k) + (4 * k * k)) / a0;
            var d2 = 4 * k * k / a0;
            sections[i] = isHighPass ? new(1 / a0, 0, 0, d1, d2) : new(k * k / a0, d2, d2, d1, d2);
        }

        if ((order & 1) == 1)
        {
            // One pole at z = (1 − k)/(1 + k), the other at 0.
            var e = 2 * k / (1 + k);
            sections[^1] = isHighPass ? new(1 / (1 + k), 1 / (1 + k), 0, 1 + e, e) : new(k / (1 + k), 3 * k / (1 + k), e, 1 + e, e);
        }

        return sections;
    }
}
