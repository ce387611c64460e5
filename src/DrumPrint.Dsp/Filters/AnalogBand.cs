using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Filters;

/// <summary>One band of an equaliser as the analog filter it stands for: sections one after another, and a gain.</summary>
/// <remarks>Sources of the sections are those of <see cref="AnalogSection"/>; high- and low-passes are Butterworth's.</remarks>
/// <param name="FreqHz">Where the corners or centres of all sections lie.</param>
/// <param name="Sections">The sections.</param>
/// <param name="Gain">What everything is multiplied by.</param>
public sealed record AnalogBand(double FreqHz, IReadOnlyList<AnalogSection> Sections, double Gain = 1)
{
    /// <summary>−3.01 dB at <paramref name="freqHz"/>, 6 dB per octave below for each order.</summary>
    /// <param name="freqHz">Corner.</param>
    /// <param name="order">Order, 1 or more.</param>
    /// <param name="sharpness">What the q of the sharpest pair of poles is multiplied by; above 1 the corner rises by as much.</param>
    public static AnalogBand HighPass(double freqHz, int order, double sharpness = 1) => new(freqHz, Butterworth(order, AnalogSection.FirstOrderHighPass(), AnalogSection.HighPass, sharpness));

    /// <summary>−3.01 dB at <paramref name="freqHz"/>, 6 dB per octave above for each order.</summary>
    /// <param name="freqHz">Corner.</param>
    /// <param name="order">Order, 1 or more.</param>
    /// <param name="sharpness">What the q of the sharpest pair of poles is multiplied by; above 1 the corner rises by as much.</param>
    public static AnalogBand LowPass(double freqHz, int order, double sharpness = 1) => new(freqHz, Butterworth(order, AnalogSection.FirstOrderLowPass(), AnalogSection.LowPass, sharpness));

    /// <summary>A bell.</summary>
    public static AnalogBand Bell(double freqHz, double gainDb, double q) => new(freqHz, [AnalogSection.Bell(gainDb, q)]);

    /// <summary>A high shelf of 12 dB per octave at its steepest (for q up to 0.7071).</summary>
    public static AnalogBand HighShelf(double freqHz, double gainDb, double q) => new(freqHz, [AnalogSection.HighShelf(gainDb, q)]);

    /// <summary>A high shelf of 6 dB per octave.</summary>
    public static AnalogBand FirstOrderHighShelf(double freqHz, double gainDb) => new(freqHz, [AnalogSection.FirstOrderHighShelf(gainDb)]);

    /// <summary>A low shelf of 12 dB per octave at its steepest (for q up to 0.7071).</summary>
    public static AnalogBand LowShelf(double freqHz, double gainDb, double q) => new(freqHz, [AnalogSection.HighShelf(-gainDb, q)], Decibels.ToGain(gainDb));

    /// <summary>A low shelf of 6 dB per octave.</summary>
    public static AnalogBand FirstOrderLowShelf(double freqHz, double gainDb) => new(freqHz, [AnalogSection.FirstOrderHighShelf(-gainDb)], Decibels.ToGain(gainDb));

    /// <summary>Turns the spectrum about <paramref name="freqHz"/>, which stays: half the gain up above, half down below.</summary>
    public static AnalogBand Tilt(double freqHz, double gainDb) => new(freqHz, [AnalogSection.FirstOrderHighShelf(gainDb)], Decibels.ToGain(-gainDb / 2));

    private static List<AnalogSection> Butterworth(int order, AnalogSection firstOrder, Func<double, AnalogSection> secondOrder, double sharpness)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(order);
        var sections = new List<AnalogSection>();
        if ((order & 1) == 1)
        {
            sections.Add(firstOrder);
        }

        for (var i = 0; i < order / 2; i++)
        {
            // 1/q of each pole pair, the most damped first.
            var q = 1 / (2 * Elementary.Cos(Math.PI * (((order & 1) == 0 ? i + 0.5 : i + 1) / order)));
            sections.Add(secondOrder(i == (order / 2) - 1 ? q * sharpness : q));
        }

        return sections;
    }
}
