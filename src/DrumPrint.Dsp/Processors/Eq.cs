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
    public static readonly PassBand HighPass = new("high_pass", "Takes away what lies below a frequency.");
    public static readonly PassBand LowPass = new("low_pass", "Takes away what lies above a frequency.");
    public static readonly ShelfBand LowShelf = new("low_shelf", "Raises or lowers everything below a frequency.");
    public static readonly ShelfBand HighShelf = new("high_shelf", "Raises or lowers everything above a frequency.");
    public static readonly BellBand Bell = new();
    public static readonly TiltBand Tilt = new();

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
        double Freq(NumberParameter parameter)
        {
            BiquadDesign.CheckFrequency(band.Settings[parameter], sampleRate, parameter);
            return band.Settings[parameter];
        }

        var values = band.Settings;
        return band.Kind switch
        {
            PassBand pass when pass == HighPass => AnalogBand.HighPass(Freq(pass.Freq), (int)values[pass.Slope] / 6),
            PassBand pass => AnalogBand.LowPass(Freq(pass.Freq), (int)values[pass.Slope] / 6),
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
