namespace DrumPrint.Dsp;

/// <summary>What a processor is made for: one render of one signal.</summary>
/// <param name="Format">Rate and channels of the input.</param>
/// <param name="Frames">Length of the render in frames, tail included; sizes reports, never the sound.</param>
/// <param name="KeyChannels">Channels of the external key; 0 without one.</param>
/// <param name="Impulses">Impulse responses by name, at the render's rate.</param>
public sealed record ProcessorContext(AudioFormat Format, long Frames, int KeyChannels, IReadOnlyDictionary<string, Impulse> Impulses)
{
    private static readonly Dictionary<string, Impulse> NoImpulses = [];

    /// <summary>Where filters and the like are kept that other processors may need too.</summary>
    public DesignMemory Designs { get; init; } = new();

    /// <summary>Whether the sound is heard while it is made. A short latency then counts more than little work; the sound may differ by
    /// rounding.</summary>
    public bool IsHeardLive { get; init; }

    /// <summary>A context without key and impulses.</summary>
    public ProcessorContext(AudioFormat format, long frames)
        : this(format, frames, 0, NoImpulses)
    {
    }
}
