namespace DrumPrint.Chains.Reading;

/// <summary>The names that a chain declares.</summary>
internal sealed class DeclaredNames
{
    private readonly HashSet<string> _tracks;
    private readonly Dictionary<ReferenceKind, List<string>> _names;
    private readonly Dictionary<ReferenceKind, HashSet<string>> _known;

    public DeclaredNames(List<string> tracks, List<string> buses, List<string> impulses)
    {
        _tracks = tracks.ToHashSet(StringComparer.Ordinal);
        _names = Enum.GetValues<ReferenceKind>().ToDictionary(kind => kind, kind => kind switch
        {
            ReferenceKind.Bus => buses,
            ReferenceKind.Impulse => impulses,
            _ => [.. tracks, .. buses],
        });
        _known = _names.ToDictionary(n => n.Key, n => n.Value.ToHashSet(StringComparer.Ordinal));
    }

    /// <summary>What a reference of a kind may name, in file order.</summary>
    public IReadOnlyList<string> For(ReferenceKind kind) => _names[kind];

    public bool Has(Reference reference) => _known[reference.Kind].Contains(reference.Name);

    public bool IsTrack(string name) => _tracks.Contains(name);
}
