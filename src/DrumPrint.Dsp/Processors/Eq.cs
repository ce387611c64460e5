using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>An equaliser of any number of bands, each true to its analog filter up to 20 kHz.</summary>
/// <remarks>Bands and their sources are those of <see cref="BiquadDesign"/>: Butterworth high- and low-passes, shelves and
/// bells of the Audio EQ Cookbook. A cut undoes a boost of the same settings.</remarks>
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

    private Eq(Settings settings, AudioFormat format)
    {
        var sections = settings[Bands].SelectMany(band => Sections(band, format.SampleRate)).ToArray();
        TailFrames = FilterTail.Frames(sections);
        if (format.Channels == 1)
        {
            _mono = new FilterCascade(sections);
        }
        else
        {
            _stereo = new StereoFilterCascade(sections);
        }
    }

    public static ProcessorDefinition Definition { get; } = new(
        "eq", 1, "Shapes the tone with any number of bands.", [Bands], static (settings, context) => new Eq(settings, context.Format))
    {
        AlsoCalled = ["equalizer", "equaliser", "filter"],
    };

    public long TailFrames { get; }

    public void Process(AudioBlock block, AudioBlock key)
    {
        _mono?.Process(block[0]);
        _stereo?.Process(block[0], block[1]);
    }

    private static BiquadCoefficients[] Sections(Item band, int sampleRate)
    {
        double Freq(NumberParameter parameter)
        {
            BiquadDesign.CheckFrequency(band.Settings[parameter], sampleRate, parameter);
            return band.Settings[parameter];
        }

        var values = band.Settings;
        return band.Kind switch
        {
            PassBand pass when pass == HighPass => BiquadDesign.HighPass(Freq(pass.Freq), (int)values[pass.Slope] / 6, sampleRate),
            PassBand pass => BiquadDesign.LowPass(Freq(pass.Freq), (int)values[pass.Slope] / 6, sampleRate),
            ShelfBand shelf when shelf == LowShelf => values[shelf.Slope] == 6
                ? BiquadDesign.FirstOrderLowShelf(Freq(shelf.Freq), values[shelf.Gain], sampleRate)
                : BiquadDesign.LowShelf(Freq(shelf.Freq), values[shelf.Gain], values[shelf.Q], sampleRate),
            ShelfBand shelf => values[shelf.Slope] == 6
                ? BiquadDesign.FirstOrderHighShelf(Freq(shelf.Freq), values[shelf.Gain], sampleRate)
                : BiquadDesign.HighShelf(Freq(shelf.Freq), values[shelf.Gain], values[shelf.Q], sampleRate),
            BellBand bell => BiquadDesign.Bell(Freq(bell.Freq), values[bell.Gain], values[bell.Q], sampleRate),
            TiltBand tilt => BiquadDesign.Tilt(Freq(tilt.Freq), values[tilt.Gain], sampleRate),
            _ => throw new SettingsException(Bands, $"'{band.Kind.Key}' is no kind of band."),
        };
    }
}
