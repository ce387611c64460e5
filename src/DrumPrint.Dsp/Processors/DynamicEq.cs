using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>An equaliser whose bands turn down only what rings too loud, while it does.</summary>
/// <remarks>Each band takes its part out of the sound (<see cref="Filters.PartDesign"/>), runs it through a <see cref="Compress"/> and puts it back. So
/// the gain at its frequency is that compressor's, of the level the band itself has, or the key's band.</remarks>
public sealed class DynamicEq : IProcessor, IGainReducers
{
    public static readonly DynamicBand Bell = new(
        "bell", "What lies around a frequency.", "Centre of the band.", new NumberParameter("q", Unit.None, 0.1, 30, 2, "The higher, the narrower: the band is freq_hz / q wide, 3 dB down at its edges."));

    public static readonly DynamicBand LowShelf = new("low_shelf", "What lies below a frequency, 6 dB per octave.", "Where the band is 3 dB down.", null);
    public static readonly DynamicBand HighShelf = new("high_shelf", "What lies above a frequency, 6 dB per octave.", "Where the band is 3 dB down.", null);

    public static readonly ListParameter Bands = new("bands", [Bell, LowShelf, HighShelf], "The bands, one after another.");

    private const int StretchFrames = 1024;

    private readonly List<DynamicLine> _lines = [];

    private DynamicEq(Settings settings, ProcessorContext context)
    {
        foreach (var band in settings[Bands])
        {
            var line = new DynamicLine(band, context, LatencyFrames, StretchFrames);
            _lines.Add(line);
            LatencyFrames += line.LatencyFrames;
            TailFrames += line.TailFrames;
            MemoryFrames += line.MemoryFrames;
        }

        Reducers = [.. _lines.Select(l => l.Reducer)];
    }

    public static ProcessorDefinition Definition { get; } = new(
        "dynamic_eq", 1, "Turns down what rings too loud in its own band, while it does.", [Bands], static (settings, context) => new DynamicEq(settings, context))
    {
        AlsoCalled = ["resonance", "de_ess", "deesser"],
        TakesKey = true,
        IsNonLinear = true,
    };

    public int LatencyFrames { get; }

    public long TailFrames { get; }

    public long MemoryFrames { get; }

    public IReadOnlyList<InnerReducer> Reducers { get; }

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var start = 0; start < block.Frames; start += StretchFrames)
        {
            var frames = Math.Min(StretchFrames, block.Frames - start);
            foreach (var line in _lines)
            {
                line.Process(block.Slice(start, frames), key.Channels == 0 ? AudioBlock.None : key.Slice(start, frames));
            }
        }
    }
}
