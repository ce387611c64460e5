using System.Collections.Frozen;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a processor in a chain: its own parameters and those that every chain adds.</summary>
internal static class StageKeys
{
    public static readonly NumberParameter Revision = new("revision", Unit.None, 1, 999, null, "Number of the sound; the newest when left out.") { IsWhole = true };

    public static readonly TextParameter Key = new("key", TextKind.Source, "Track or bus the detector listens to; its own input when left out.");

    private static readonly TextParameter NeededKey = new("key", TextKind.Source, "Track or bus that it listens to beside its own input.") { IsRequired = true };

    public static readonly ToggleParameter Off = new("off", false, "true leaves it out of the sound and keeps it in the chain.") { AlsoCalled = ["bypass", "bypassed", "mute", "muted", "disabled"] };

    public static Shape Shape(ProcessorDefinition definition) => OfProcessors.GetValueOrDefault(definition) ?? Make(definition);

    public static Shape Shape(ItemKind kind) => OfItems.GetValueOrDefault(kind) ?? Make(kind);

    private static Shape Make(ProcessorDefinition definition) => new(
        definition.Key,
        definition.Summary,
        definition.TakesKey ? [Revision, KeyOf(definition), Off, .. definition.Parameters] : [Revision, Off, .. definition.Parameters])
    {
        KeyNoun = "setting",
        Refusals = definition.TakesKey
            ? new Dictionary<string, string>()
            : new Dictionary<string, string> { [Key.Key] = $"{definition.Key} has no detector, so it takes no 'key'. Take it out." },
    };

    // What people ask of a band that stands still.
    private static readonly Dictionary<string, string> OfStill = DynamicEq.Bell.Parameters.Where(p => !Eq.Bell.Parameters.Any(e => e.Key == p.Key)).ToDictionary(
        p => p.Key,
        p => $"a band of eq stays as it is set. One that moves with its level is a band of {DynamicEq.Definition.Key}, which takes '{p.Key}'.");

    private static readonly Dictionary<string, string> OfInner = new()
    {
        [Key.Key] = "a processor in a band listens to its own band, so it takes no 'key'. Take it out.",
        [Revision.Key] = $"'{Revision.Key}' stands with the processor that makes the bands. Take it out here.",
    };

    private static Shape Make(ItemKind kind) => new(kind.Key, kind.Summary, kind.Parameters)
    {
        KeyNoun = "setting",
        Refusals = kind switch
        {
            ProcessorKind => OfInner,
            EqBand => OfStill,
            _ => new Dictionary<string, string>(),
        },
    };

    // A chain has hundreds of processors and bands, of a few dozen kinds. These stand last: making them takes all that is above.
    private static readonly FrozenDictionary<ProcessorDefinition, Shape> OfProcessors = Catalogue.All.ToFrozenDictionary(d => d, Make);

    private static readonly FrozenDictionary<ItemKind, Shape> OfItems =
        Catalogue.All.SelectMany(d => d.Parameters).OfType<ListParameter>().SelectMany(p => p.Kinds).Distinct().ToFrozenDictionary(k => k, Make);

    /// <summary>The key as a processor has it: one that does nothing without one must be given it.</summary>
    public static TextParameter KeyOf(ProcessorDefinition definition) => definition.NeedsKey ? NeededKey : Key;
}
