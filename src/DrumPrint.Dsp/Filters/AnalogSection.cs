using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Filters;

/// <summary>
/// An analog filter of first or second order, (n2 s² + n1 s + n0) / (d2 s² + d1 s + d0). Its corner or centre lies at s
/// = j. The digital filters are held against it.
/// </summary>
/// <remarks>Second-order shelves and bells are those of the Audio EQ Cookbook (W3C note); its shelf with q = 0.7071 is
/// the one with S = 1.</remarks>
public readonly record struct AnalogSection(double N2, double N1, double N0, double D2, double D1, double D0)
{
    /// <summary>1 or 2.</summary>
    public int Order => D2 == 0 ? 1 : 2;

    /// <summary>6 dB per octave below the corner.</summary>
    public static AnalogSection FirstOrderHighPass() => new(0, 1, 0, 0, 1, 1);

    /// <summary>6 dB per octave above the corner.</summary>
    public static AnalogSection FirstOrderLowPass() => new(0, 0, 1, 0, 1, 1);

    /// <summary>12 dB per octave below the corner.</summary>
    public static AnalogSection HighPass(double q) => new(1, 0, 0, 1, 1 / q, 1);

    /// <summary>12 dB per octave above the corner.</summary>
    public static AnalogSection LowPass(double q) => new(0, 0, 1, 1, 1 / q, 1);

    /// <summary>The gain at the centre, none far from it.</summary>
    public static AnalogSection Bell(double gainDb, double q)
    {
        var a = Decibels.ToGain(gainDb / 2);
        return new(1, a / q, 1, 1, 1 / (a * q), 1);
    }

    /// <summary>The gain far above the corner, half of its decibels there, none far below; 6 dB per octave between.</summary>
    public static AnalogSection FirstOrderHighShelf(double gainDb)
    {
        var a = Decibels.ToGain(gainDb / 2);
        return new(0, a, 1, 0, 1 / a, 1);
    }

    /// <summary>The gain far above the corner, half of its decibels there, none far below; up to 12 dB per octave between.</summary>
    public static AnalogSection HighShelf(double gainDb, double q)
    {
        var a = Decibels.ToGain(gainDb / 2);
        var slope = Math.Sqrt(a) / q;
        return new(a * a, a * slope, a, 1, slope, a);
    }

    /// <summary>The power response at a squared frequency relative to the corner.</summary>
    public double PowerAt(double frequencySquared)
    {
        var numerator = N0 - (N2 * frequencySquared);
        var denominator = D0 - (D2 * frequencySquared);
        return ((numerator * numerator) + (N1 * N1 * frequencySquared)) / ((denominator * denominator) + (D1 * D1 * frequencySquared));
    }

    /// <summary>The complex response at a frequency relative to the corner.</summary>
    internal ComplexValue ResponseAt(double frequency)
    {
        var squared = frequency * frequency;
        return new ComplexValue(N0 - (N2 * squared), N1 * frequency) / new ComplexValue(D0 - (D2 * squared), D1 * frequency);
    }
}
