using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Filters;

/// <summary>Turns the settings of a filter into second-order sections that follow the analog filter of the same name.</summary>
/// <remarks>Each function throws <see cref="SettingsException"/> for a frequency too high for the rate.</remarks>
public static class BiquadDesign
{
    /// <summary>Highest usable frequency as a part of the sample rate.</summary>
    private const double HighestPart = 0.49;

    /// <summary>Butterworth high-pass: −3.01 dB at <paramref name="freqHz"/>, 6 dB per octave for each order.</summary>
    public static BiquadCoefficients[] HighPass(double freqHz, int order, int sampleRate) =>
        Butterworth(freqHz, order, sampleRate, AnalogSection.HighPass, AnalogSection.FirstOrderHighPass());

    /// <summary>Butterworth low-pass: −3.01 dB at <paramref name="freqHz"/>, 6 dB per octave for each order.</summary>
    public static BiquadCoefficients[] LowPass(double freqHz, int order, int sampleRate) =>
        Butterworth(freqHz, order, sampleRate, AnalogSection.LowPass, AnalogSection.FirstOrderLowPass());

    /// <summary>A bell.</summary>
    public static BiquadCoefficients[] Bell(double freqHz, double gainDb, double q, int sampleRate) =>
        BoostOrCut(gainDb, boost => Matched(AnalogSection.Bell(boost, q), freqHz, sampleRate));

    /// <summary>A high shelf of 12 dB per octave at its steepest (for q up to 0.7071).</summary>
    public static BiquadCoefficients[] HighShelf(double freqHz, double gainDb, double q, int sampleRate) =>
        BoostOrCut(gainDb, boost => Matched(AnalogSection.HighShelf(boost, q), freqHz, sampleRate));

    /// <summary>A high shelf of 6 dB per octave.</summary>
    public static BiquadCoefficients[] FirstOrderHighShelf(double freqHz, double gainDb, int sampleRate) =>
        BoostOrCut(gainDb, boost => Matched(AnalogSection.FirstOrderHighShelf(boost), freqHz, sampleRate));

    /// <summary>A low shelf of 12 dB per octave at its steepest (for q up to 0.7071).</summary>
    public static BiquadCoefficients[] LowShelf(double freqHz, double gainDb, double q, int sampleRate) =>
        Raised(HighShelf(freqHz, -gainDb, q, sampleRate), gainDb);

    /// <summary>A low shelf of 6 dB per octave.</summary>
    public static BiquadCoefficients[] FirstOrderLowShelf(double freqHz, double gainDb, int sampleRate) =>
        Raised(FirstOrderHighShelf(freqHz, -gainDb, sampleRate), gainDb);

    /// <summary>Turns the spectrum about <paramref name="freqHz"/>, which stays: half the gain up above, half down below.</summary>
    public static BiquadCoefficients[] Tilt(double freqHz, double gainDb, int sampleRate) =>
        Raised(FirstOrderHighShelf(freqHz, gainDb, sampleRate), -gainDb / 2);

    /// <summary>Throws when a frequency cannot be reached at a sample rate.</summary>
    /// <exception cref="SettingsException">The frequency is too high for the rate.</exception>
    public static void CheckFrequency(double freqHz, int sampleRate, Parameter? parameter = null)
    {
        if (freqHz >= HighestPart * sampleRate)
        {
            throw new SettingsException(parameter, FormattableString.Invariant(
                $"{freqHz:0.###} Hz is too high for a sample rate of {sampleRate} Hz; the highest frequency is {Math.Ceiling(HighestPart * sampleRate) - 1:0} Hz."));
        }
    }

    private static BiquadCoefficients[] Butterworth(
        double freqHz, int order, int sampleRate, Func<double, AnalogSection> secondOrder, AnalogSection firstOrder)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(order);
        var sections = new List<BiquadCoefficients>();
        if ((order & 1) == 1)
        {
            sections.AddRange(Matched(firstOrder, freqHz, sampleRate));
        }

        for (var i = 0; i < order / 2; i++)
        {
            // 1/q of each pole pair, the most damped first.
            var damping = 2 * Elementary.Cos(Math.PI * (((order & 1) == 0 ? i + 0.5 : i + 1) / order));
            sections.AddRange(Matched(secondOrder(1 / damping), freqHz, sampleRate));
        }

        return [.. sections];
    }

    private static BiquadCoefficients[] Matched(AnalogSection analog, double freqHz, int sampleRate)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(freqHz);
        CheckFrequency(freqHz, sampleRate);
        return MatchedDesign.Digital(analog, freqHz, sampleRate);
    }

    // A cut is the boost upside down, so that one undoes the other.
    private static BiquadCoefficients[] BoostOrCut(double gainDb, Func<double, BiquadCoefficients[]> boost)
    {
        var sections = boost(Math.Abs(gainDb));
        return gainDb >= 0 ? sections : Array.ConvertAll(sections, s => s.Inverse());
    }

    private static BiquadCoefficients[] Raised(BiquadCoefficients[] sections, double gainDb)
    {
        sections[0] = sections[0].Times(Decibels.ToGain(gainDb));
        return sections;
    }
}
