using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Keeps the wave under a ceiling, between the samples too.</summary>
/// <remarks>True peak is that of ITU-R BS.1770-5, Annex 2, read closer than it asks for. See <see cref="CeilingPasses"/>.</remarks>
public sealed class Limit : IProcessor, IGainReducer
{
    public static readonly NumberParameter Top = new("ceiling_dbtp", Unit.DecibelsTruePeak, -60, 0, -1, "True peak that the wave never passes.");
    public static readonly NumberParameter Ahead = new("look_ahead_ms", Unit.Milliseconds, 0.5, 10, 2, "How long before a peak the gain begins to come down. The print stays in time.");
    public static readonly NumberParameter Hold = new("hold_ms", Unit.Milliseconds, 0, 500, 15, "How long the gain stays down after a peak. From half the period of the lowest note on, a steady note is not bent.");
    public static readonly NumberParameter Release = new("release_ms", Unit.Milliseconds, 1, 10000, 120, "Time to come 63 % of the way back, in decibels, after the hold.");
    public static readonly NumberParameter Link = new("link_pct", Unit.Percent, 0, 100, 100, "How far each side follows the side that is turned down most; 100 keeps the image still.");

    private readonly CeilingPasses _passes;

    private Limit(Settings settings, ProcessorContext context) =>
        _passes = new CeilingPasses(context, settings[Top], settings[Ahead], settings[Hold], settings[Release], settings[Link] / 100);

    public static ProcessorDefinition Definition { get; } = new(
        "limit",
        1,
        "Keeps the wave under a ceiling in true peak.",
        [Top, Ahead, Hold, Release, Link],
        static (settings, context) => new Limit(settings, context))
    {
        AlsoCalled = ["limiter", "ceiling"],
        IsNonLinear = true,
    };

    public int LatencyFrames => _passes.LatencyFrames;

    public long TailFrames => _passes.TailFrames;

    public long MemoryFrames => _passes.MemoryFrames;

    /// <summary>The gain over time, of two sides the lower, in time with the sound after the latency has been taken out.</summary>
    public GainCurve GainCurve => _passes.GainCurve;

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var start = 0; start < block.Frames; start += CeilingPasses.MaxFrames)
        {
            _passes.Process(block.Slice(start, Math.Min(CeilingPasses.MaxFrames, block.Frames - start)));
        }
    }
}
