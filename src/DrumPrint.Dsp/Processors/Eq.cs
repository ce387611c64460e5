using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>An equaliser of any number of bands, true to their analog filters up to 20 kHz in level and in phase.</summary>
/// <remarks>Bands and their sources are those of <see cref="AnalogBand"/>: Butterworth high- and low-passes, shelves and
/// bells of the Audio EQ Cookbook. A cut undoes a boost of the same settings in the same equaliser. The latency depends on the sample
/// rate alone, as long as no band stands on one side. Then each run of bands on left and right, or on mid and side, has that latency. With
/// linear phase it is that of <see cref="LinearBands"/>. The filters inside the keys of <c>compress</c>, <c>gate</c> and <c>duck</c> are the plain ones of
/// <see cref="BiquadDesign"/>, without latency: nobody blends them with anything.</remarks>
public sealed class Eq : IProcessor
{
    public static readonly PassBand HighPass = new("high_pass", "Takes away what lies below a frequency.");
    public static readonly PassBand LowPass = new("low_pass", "Takes away what lies above a frequency.");
    public static readonly ShelfBand LowShelf = new("low_shelf", "Raises or lowers everything below a frequency.");
    public static readonly ShelfBand HighShelf = new("high_shelf", "Raises or lowers everything above a frequency.");
    public static readonly BellBand Bell = new();
    public static readonly TiltBand Tilt = new();

    public static readonly ListParameter Bands = new("bands", [HighPass, LowPass, LowShelf, HighShelf, Bell, Tilt], "The bands, one after another.");

    public static readonly ChoiceParameter Phase = new(
        "phase",
        [
            new("minimum", "As the analog filters turn it, without any time ahead."),
            new("linear", "It stays as it is. The bands ring before a hit as long as after it; the print stays in time."),
        ],
        "minimum",
        "What the bands do to the phase. Levels are the same.")
    {
        IsLeftOutAtDefault = true,
    };

    // Each side of a linear filter, in seconds.
    private const double LongestRing = 1;

    private readonly IBandStage[] _stages;

    private Eq(Settings settings, ProcessorContext context)
    {
        _stages = [.. Stages(settings, context)];
        LatencyFrames = _stages.Sum(s => s.LatencyFrames);
        TailFrames = _stages.Sum(s => s.TailFrames);
    }

    public static ProcessorDefinition Definition { get; } = new(
        "eq", 1, "Shapes the tone with any number of bands.", [Bands, Phase], static (settings, context) => new Eq(settings, context))
    {
        AlsoCalled = ["equalizer", "equaliser", "filter"],
    };

    public int LatencyFrames { get; }

    public long TailFrames { get; }

    /// <summary>For how many milliseconds before a hit the bands ring, down to 60 dB under the ring's loudest moment; 0 with minimum phase.</summary>
    public double PreRingMs => _stages.Sum(s => s.PreRingMs);

    public void Process(AudioBlock block, AudioBlock key)
    {
        foreach (var stage in _stages)
        {
            stage.Process(block);
        }
    }

    private static List<IBandStage> Stages(Settings settings, ProcessorContext context)
    {
        var format = context.Format;
        var isLinear = settings[Phase] == "linear";
        var both = settings[Bands].Where(band => Side(band, format) == Sides.Both).ToList();
        var stages = new List<IBandStage>();
        foreach (var run in SidedBands.Of(settings[Bands], band => Side(band, format)))
        {
            // Bands on both sides go with the first run, for there they cost no time of their own.
            CorrectedDesign[] designs = [Design([.. both, .. run.First], context), Design([.. both, .. run.Second], context)];
            both = [];
            IBandStage filters = isLinear ? new LinearBands([.. designs.Select(d => Linear(d, context))]) : new OwnBands(designs);
            stages.Add(run.IsMidSide ? new MidSideBands(filters) : filters);
        }

        if (stages.Count == 0)
        {
            var design = Design(both, context);
            stages.Add(isLinear
                ? new LinearBands([.. Enumerable.Repeat(Linear(design, context), format.Channels)])
                : new SameBands(design, format.Channels));
        }

        return stages;
    }

    private static string Side(Item band, AudioFormat format)
    {
        var on = ((EqBand)band.Kind).On;
        Sides.Check(on, band.Settings[on], format);
        return band.Settings[on];
    }

    private static CorrectedDesign Design(IEnumerable<Item> bands, ProcessorContext context)
    {
        var rate = context.Format.SampleRate;
        AnalogBand[] analog = [.. bands.Select(band => Analog(band, rate))];
        return context.Designs.Of(("eq", rate, string.Join(' ', analog.Select(Text))), () => CorrectedDesign.Of(analog, rate));
    }

    // To the last bit, for two filters are one only when their bands are.
    private static string Text(AnalogBand band) => FormattableString.Invariant($"{band.FreqHz:R} {band.Gain:R} [{string.Join(' ', band.Sections)}]");

    private static LinearDesign Linear(CorrectedDesign design, ProcessorContext context)
    {
        var rate = context.Format.SampleRate;
        return context.Designs.Of(("linear eq", rate, design), () => LinearDesign.Of(design, rate, (int)(LongestRing * rate)) ?? throw new SettingsException(
            Phase,
            "'phase' is linear, and these bands would have to begin more than half a second before a hit. Take a higher frequency, a lower q or a gentler slope, or \"minimum\"."));
    }

    private static AnalogBand Analog(Item band, int sampleRate)
    {
        double Freq(NumberParameter parameter)
        {
            BiquadDesign.CheckFrequency(band.Settings[parameter], sampleRate, parameter);
            return band.Settings[parameter];
        }

        var values = band.Settings;
        return band.Kind switch
        {
            PassBand pass when pass == HighPass => AnalogBand.HighPass(Freq(pass.Freq), (int)values[pass.Slope] / 6, PassBand.Sharpness(values[pass.Q])),
            PassBand pass => AnalogBand.LowPass(Freq(pass.Freq), (int)values[pass.Slope] / 6, PassBand.Sharpness(values[pass.Q])),
            ShelfBand shelf when shelf == LowShelf => values[shelf.Slope] == 6
                ? AnalogBand.FirstOrderLowShelf(Freq(shelf.Freq), values[shelf.Gain])
                : AnalogBand.LowShelf(Freq(shelf.Freq), values[shelf.Gain], values[shelf.Q]),
            ShelfBand shelf => values[shelf.Slope] == 6
                ? AnalogBand.FirstOrderHighShelf(Freq(shelf.Freq), values[shelf.Gain])
                : AnalogBand.HighShelf(Freq(shelf.Freq), values[shelf.Gain], values[shelf.Q]),
            BellBand bell => AnalogBand.Bell(Freq(bell.Freq), values[bell.Gain], values[bell.Q]),
            TiltBand tilt => AnalogBand.Tilt(Freq(tilt.Freq), values[tilt.Gain]),
            _ => throw new SettingsException(Bands, $"'{band.Kind.Key}' is no kind of band."),
        };
    }
}
