using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>A kind of band of an <see cref="Eq"/>.</summary>
public abstract class EqBand : ItemKind
{
    private protected EqBand(string key, string summary, ChoiceParameter on, IReadOnlyList<Parameter> parameters)
        : base(key, summary, [.. parameters, on]) => On = on;

    /// <summary>What of a stereo signal the band hears.</summary>
    public ChoiceParameter On { get; }

    internal static NumberParameter FreqOf(string help) => new("freq_hz", Unit.Hertz, 5, 40000, null, help) { IsRequired = true };

    internal static NumberParameter GainOf(string help) => new("gain_db", Unit.Decibels, -36, 36, null, help) { IsRequired = true };
}

/// <summary>A high-pass or low-pass of an <see cref="Eq"/>.</summary>
public sealed class PassBand : EqBand
{
    private const double FlatQ = 0.7071;
    private static readonly double[] Slopes = [6, 12, 18, 24, 30, 36, 42, 48];

    internal PassBand(string key, string summary)
        : this(
            key,
            summary,
            FreqOf("Where it is 3 dB down."),
            new("slope_db_per_oct", Unit.DecibelsPerOctave, 6, 48, 12, "How steeply it falls.") { Steps = Slopes },
            new("q", Unit.None, 0.1, 20, FlatQ, "Above 0.7071 the edge rises, at 12 dB per octave to 20 log q at the frequency; below it is gentler. Steeper slopes rise by as much. 6 dB per octave has none.") { IsLeftOutAtDefault = true })
    {
    }

    private PassBand(string key, string summary, NumberParameter freq, NumberParameter slope, NumberParameter q)
        : base(key, summary, Sides.On("band"), [freq, slope, q]) => (Freq, Slope, Q) = (freq, slope, q);

    public NumberParameter Freq { get; }

    public NumberParameter Slope { get; }

    public NumberParameter Q { get; }

    /// <summary>How many times as sharp as Butterworth's the sharpest pair of poles is: 1 as it stands by default.</summary>
    internal static double Sharpness(double q) => q == FlatQ ? 1 : q * Math.Sqrt(2);
}

/// <summary>A low or high shelf of an <see cref="Eq"/>.</summary>
public sealed class ShelfBand : EqBand
{
    internal ShelfBand(string key, string summary)
        : this(
            key,
            summary,
            FreqOf("Where half the gain is reached."),
            GainOf("How much louder or, below zero, softer."),
            new("slope_db_per_oct", Unit.DecibelsPerOctave, 6, 12, 12, "How steeply it changes over.") { Steps = [6, 12] },
            new("q", Unit.None, 0.1, 8, 0.7071, "Above 0.7071 the edge overshoots; below it is gentler. For 12 dB per octave only."))
    {
    }

    private ShelfBand(string key, string summary, NumberParameter freq, NumberParameter gain, NumberParameter slope, NumberParameter q)
        : base(key, summary, Sides.On("band"), [freq, gain, slope, q]) => (Freq, Gain, Slope, Q) = (freq, gain, slope, q);

    public NumberParameter Freq { get; }

    public NumberParameter Gain { get; }

    public NumberParameter Slope { get; }

    public NumberParameter Q { get; }
}

/// <summary>The bell of an <see cref="Eq"/>.</summary>
public sealed class BellBand : EqBand
{
    internal BellBand()
        : this(
            FreqOf("The middle of the region."),
            GainOf("How much louder or, below zero, softer, in the middle."),
            new("q", Unit.None, 0.1, 30, 1, "How narrow: the higher, the narrower."))
    {
    }

    private BellBand(NumberParameter freq, NumberParameter gain, NumberParameter q)
        : base("bell", "Raises or lowers a region around a frequency.", Sides.On("band"), [freq, gain, q]) => (Freq, Gain, Q) = (freq, gain, q);

    public NumberParameter Freq { get; }

    public NumberParameter Gain { get; }

    public NumberParameter Q { get; }
}

/// <summary>The tilt of an <see cref="Eq"/>.</summary>
public sealed class TiltBand : EqBand
{
    internal TiltBand()
        : this(
            FreqOf("The frequency that stays as it is."),
            GainOf("The top goes up by half of this and the bottom down by half; below zero, the other way."))
    {
    }

    private TiltBand(NumberParameter freq, NumberParameter gain)
        : base("tilt", "Leans the whole spectrum towards the top or the bottom.", Sides.On("band"), [freq, gain]) => (Freq, Gain) = (freq, gain);

    public NumberParameter Freq { get; }

    public NumberParameter Gain { get; }
}
