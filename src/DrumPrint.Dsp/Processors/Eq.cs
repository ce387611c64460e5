using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>An equaliser of any number of bands, true to their analog filters up to 20 kHz in level and in phase.</summary>
/// <remarks>Bands and their sources are those of <see cref="AnalogBand"/>: Butterworth high- and low-passes, shelves and
/// bells of the Audio EQ Cookbook. A cut undoes a boost of the same settings in the same equaliser. The latency depends on the sample
/// rate alone. The filters inside the keys of <c>compress</c>, <c>gate</c> and <c>duck</c> are the plain ones of
/// <see cref="BiquadDesign"/>, without latency: nobody blends them with anything.</remarks>
public sealed class Eq : IProcessor
{
    private static readonly double[] Slopes = [6, 12, 18, 24, 30, 36, 42, 48];
    private static readonly ItemKind HighPass = PassKind("high_pass", "Takes away what lies below a frequency.");
    private static readonly ItemKind LowPass = PassKind("low_pass", "Takes away what lies above a frequency.");
    private static readonly ItemKind LowShelf = ShelfKind("low_shelf", "Raises or lowers everything below a frequency.");
    private static readonly ItemKind HighShelf = ShelfKind("high_shelf", "Raises or lowers everything above a frequency.");
    private static readonly ItemKind Bell = BellKind();
    private static readonly ItemKind Tilt = TiltKind();

    public static readonly ListParameter Bands = new("bands", [HighPass, LowPass, LowShelf, HighShelf, Bell, Tilt], "The bands, one after another.");

    private readonly FilterCascade? _mono;
    private readonly StereoFilterCascade? _stereo;
    private readonly TapFilter[] _corrections;

    private Eq(Settings settings, AudioFormat format)
    {
        var design = CorrectedDesign.Of(settings[Bands].Select(band => Analog(band, format.SampleRate)), format.SampleRate);
        LatencyFrames = design.LatencyFrames;
        TailFrames = design.TailFrames;
        _corrections = [.. Enumerable.Range(0, format.Channels).Select(_ => new TapFilter(design.Taps))];
        if (format.Channels == 1)
        {
            _mono = new FilterCascade(design.Sections);
        }
        else
        {
            _stereo = new StereoFilterCascade(design.Sections);
        }
    }

    public static ProcessorDefinition Definition { get; } = new(
        "eq", 1, "Shapes the tone with any number of bands.", [Bands], static (settings, context) => new Eq(settings, context.Format))
    {
        AlsoCalled = ["equalizer", "equaliser", "filter"],
    };

    public int LatencyFrames { get; }

    public long TailFrames { get; }

    public void Process(AudioBlock block, AudioBlock key)
    {
        _mono?.Process(block[0]);
        _stereo?.Process(block[0], block[1]);
        for (var channel = 0; channel < _corrections.Length; channel++)
        {
            _corrections[channel].Process(block[channel]);
        }
    }

    private static AnalogBand Analog(Item band, int sampleRate)
    {
        var values = band.Settings;
        double Value(int index) => values[(NumberParameter)band.Kind.Parameters[index]];
        var freq = Value(0);
        BiquadDesign.CheckFrequency(freq, sampleRate, band.Kind.Parameters[0]);
        return band.Kind.Key switch
        {
            "high_pass" => AnalogBand.HighPass(freq, (int)Value(1) / 6),
            "low_pass" => AnalogBand.LowPass(freq, (int)Value(1) / 6),
            "low_shelf" => Value(2) == 6
                ? AnalogBand.FirstOrderLowShelf(freq, Value(1))
                : AnalogBand.LowShelf(freq, Value(1), Value(3)),
            "high_shelf" => Value(2) == 6
                ? AnalogBand.FirstOrderHighShelf(freq, Value(1))
                : AnalogBand.HighShelf(freq, Value(1), Value(3)),
            "bell" => AnalogBand.Bell(freq, Value(1), Value(2)),
            _ => AnalogBand.Tilt(freq, Value(1)),
        };
    }

    private static NumberParameter Freq(string help) => new("freq_hz", Unit.Hertz, 5, 40000, null, help) { IsRequired = true };

    private static NumberParameter Gain(string help) => new("gain_db", Unit.Decibels, -36, 36, null, help) { IsRequired = true };

    private static ItemKind PassKind(string key, string summary) => new(
        key,
        summary,
        [
            Freq("Where it is 3 dB down."),
            new NumberParameter("slope_db_per_oct", Unit.DecibelsPerOctave, 6, 48, 12, "How steeply it falls.") { Steps = Slopes },
        ]);

    private static ItemKind ShelfKind(string key, string summary) => new(
        key,
        summary,
        [
            Freq("Where half the gain is reached."),
            Gain("How much louder or, below zero, softer."),
            new NumberParameter("slope_db_per_oct", Unit.DecibelsPerOctave, 6, 12, 12, "How steeply it changes over.") { Steps = [6, 12] },
            new NumberParameter("q", Unit.None, 0.1, 8, 0.7071, "Above 0.7071 the edge overshoots; below it is gentler. For 12 dB per octave only."),
        ]);

    private static ItemKind BellKind() => new(
        "bell",
        "Raises or lowers a region around a frequency.",
        [
            Freq("The middle of the region."),
            Gain("How much louder or, below zero, softer, in the middle."),
            new NumberParameter("q", Unit.None, 0.1, 30, 1, "How narrow: the higher, the narrower."),
        ]);

    private static ItemKind TiltKind() => new(
        "tilt",
        "Leans the whole spectrum towards the top or the bottom.",
        [
            Freq("The frequency that stays as it is."),
            Gain("The top goes up by half of this and the bottom down by half; below zero, the other way."),
        ]);
}
