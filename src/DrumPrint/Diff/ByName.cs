namespace DrumPrint.Diff;

/// <summary>Things in a row that go by a name each.</summary>
internal sealed class ByName<T>
    where T : class
{
    private readonly Dictionary<string, T> _things = new(StringComparer.Ordinal);
    private readonly List<string> _names = [];

    public ByName(IReadOnlyList<T> things, Func<T, string> name)
    {
        foreach (var thing in things)
        {
            _names.Add(name(thing));
            _things.TryAdd(name(thing), thing);
        }
    }

    /// <summary>Null when nothing has the name.</summary>
    public T? Find(string name) => _things.GetValueOrDefault(name);

    /// <summary>Whether what both have stands in one order.</summary>
    public bool IsInOrderOf(ByName<T> other) => _names.Where(other._things.ContainsKey).SequenceEqual(other._names.Where(_things.ContainsKey));
}
