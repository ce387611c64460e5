namespace DrumPrint.Fuzz.Targets;

/// <summary>Every reader that is tried.</summary>
internal static class FuzzTargets
{
    private static readonly Dictionary<string, Func<FuzzTarget>> Makers = new(StringComparer.Ordinal)
    {
        ["sound"] = () => new SoundTarget(),
        ["chain"] = () => new ChainTarget(),
        ["tempo"] = () => new TempoTarget(),
        ["midi"] = () => new MidiTarget(),
        ["ticket"] = () => new TicketTarget(),
        ["part"] = () => new PartTarget(),
        ["bext"] = () => new BroadcastTarget(),
        ["signal"] = () => new SignalTarget(),
        ["memo"] = () => new MemoTarget(),
        ["mark"] = () => new MarkTarget(),
        ["delivery"] = () => new DeliveryTarget(),
        ["journal"] = () => new JournalTarget(),
        ["settings"] = () => new SettingsTarget(),
        ["name"] = () => new NameTarget(),
    };

    public static IReadOnlyCollection<string> Names => Makers.Keys;

    /// <summary>Makes a target of its own for one thread.</summary>
    public static FuzzTarget Make(string name) => Makers[name]();
}
