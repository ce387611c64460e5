using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The one declaration of a group of keys in a file; reader and schema both go by it.</summary>
/// <param name="name">What it is, as a message calls it: <c>a track</c>, <c>the song</c>, <c>compress</c>.</param>
/// <param name="summary">What it is for, one line ending in a full stop.</param>
/// <param name="keys">The keys it takes, in the order the canonical form writes them.</param>
internal sealed class Shape(string name, string summary, IReadOnlyList<Parameter> keys)
{
    private readonly Dictionary<string, Parameter> _byName = keys.DistinctBy(k => k.Key).ToDictionary(k => k.Key, StringComparer.Ordinal);

    public string Name { get; } = name;

    public string Summary { get; } = summary;

    public IReadOnlyList<Parameter> Keys { get; } = keys;

    /// <summary>The key of a name; null where there is none.</summary>
    public Parameter? Find(string name) => _byName.GetValueOrDefault(name);

    /// <summary>What its keys are called.</summary>
    public string KeyNoun { get; init; } = "key";

    /// <summary>The key that a bare value in place of the group stands for.</summary>
    public Parameter? Shorthand { get; init; }

    /// <summary>Keys of which exactly one must be there; none where each stands for itself.</summary>
    public IReadOnlyList<Parameter> OneOf { get; init; } = [];

    /// <summary>A key that names another file, from which <see cref="Lent"/> may come; null where there is none.</summary>
    public Parameter? Lender { get; init; }

    /// <summary>Keys that need not be there where the lender is.</summary>
    public IReadOnlyList<Parameter> Lent { get; init; } = [];

    /// <summary>Whether false stands for none and true for the defaults.</summary>
    public bool CanBeSwitched { get; init; }

    /// <summary>Whether it is there, with its defaults, when the file leaves it out.</summary>
    public bool IsOnByDefault { get; init; }

    /// <summary>Keys that look right but are not, and what to say about each.</summary>
    public IReadOnlyDictionary<string, string> Refusals { get; init; } = new Dictionary<string, string>();
}
