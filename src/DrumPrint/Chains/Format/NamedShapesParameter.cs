using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>A key whose value is a group of entries, each under a name.</summary>
internal sealed class NamedShapesParameter(string key, Shape shape, string help) : Parameter(key, help)
{
    public Shape Shape { get; } = shape;

    /// <summary>Whether each name is that of a track or bus declared elsewhere, not a new one.</summary>
    public bool RefersToSources { get; init; }

    /// <summary>One entry as it may stand in a file.</summary>
    public string? Sample { get; init; }

    /// <summary>What to say when there is no entry; null when that is fine.</summary>
    public string? WhenEmpty { get; init; }
}
