using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a processor in a chain: its own parameters and those that every chain adds.</summary>
internal static class StageKeys
{
    public static readonly NumberParameter Revision = new("revision", Unit.None, 1, 999, null, "Number of the sound; the newest when left out.") { IsWhole = true };

    public static readonly TextParameter Key = new("key", TextKind.Source, "Track or bus the detector listens to; its own input when left out.");

    private static readonly TextParameter NeededKey = new("key", TextKind.Source, "Track or bus that it listens to beside its own input.") { IsRequired = true };

    public static readonly ToggleParameter Off = new("off", false, "true leaves it out of the sound and keeps it in the chain.") { AlsoCalled = ["bypass", "bypassed", "mute", "muted", "disabled"] };

    public static Shape Shape(ProcessorDefinition definition) => new(
        definition.Key,
        definition.Summary,
        definition.TakesKey ? [Revision, KeyOf(definition), Off, .. definition.Parameters] : [Revision, Off, .. definition.Parameters])
    {
        KeyNoun = "setting",
        Refusals = definition.TakesKey
            ? new Dictionary<string, string>()
            : new Dictionary<string, string> { [Key.Key] = $"{definition.Key} has no detector, so it takes no 'key'. Take it out." },
    };

    /// <summary>The key as a processor has it: one that does nothing without one must be given it.</summary>
    public static TextParameter KeyOf(ProcessorDefinition definition) => definition.NeedsKey ? NeededKey : Key;

    public static Shape Shape(ItemKind kind) => new(kind.Key, kind.Summary, kind.Parameters) { KeyNoun = "setting" };
}
