namespace DrumPrint.Dsp.Processors;

/// <summary>Every processor a chain can name, all revisions.</summary>
public static class Catalogue
{
    /// <summary>All definitions, by key and then revision.</summary>
    public static IReadOnlyList<ProcessorDefinition> All { get; } =
    [
        Eq.Definition,
        DynamicEq.Definition,
        Bands.Definition,
        Compress.Definition,
        Gate.Definition,
        Duck.Definition,
        Hits.Definition,
        Spill.Definition,
        Hum.Definition,
        Limit.Definition,
        Clip.Definition,
        Saturate.Definition,
        Tape.Definition,
        Convolve.Definition,
        Layer.Definition,
        Delay.Definition,
        Gain.Definition,
        Polarity.Definition,
        Phase.Definition,
        Width.Definition,
    ];

    /// <summary>The newest revision of each processor, in catalogue order.</summary>
    public static IEnumerable<ProcessorDefinition> Newest =>
        All.GroupBy(d => d.Key, StringComparer.Ordinal).Select(g => g.MaxBy(d => d.Revision)!);

    /// <summary>Finds a definition; the newest when no revision is asked for. Null when there is none.</summary>
    public static ProcessorDefinition? Find(string key, int? revision = null) =>
        All.Where(d => d.Key == key && (revision is null || d.Revision == revision)).MaxBy(d => d.Revision);
}
