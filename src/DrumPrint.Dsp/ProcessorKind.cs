using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp;

/// <summary>A processor as an item of a list: one that works inside another.</summary>
/// <param name="definition">The processor, in the revision that it has there.</param>
public sealed class ProcessorKind(ProcessorDefinition definition) : ItemKind(definition.Key, definition.Summary, [.. definition.Parameters, Off])
{
    /// <summary>Whether it is left out of the sound.</summary>
    public static readonly ToggleParameter Off = new("off", false, "Leaves it out of the sound and keeps it in the chain.") { IsLeftOutAtDefault = true, AlsoCalled = ["bypass", "bypassed", "mute", "muted", "disabled"] };

    public ProcessorDefinition Definition { get; } = definition;
}
