using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>A key whose value is a group of keys.</summary>
internal sealed class ShapeParameter(string key, Shape shape, string help) : Parameter(key, help)
{
    public Shape Shape { get; } = shape;

    /// <summary>The schema that describes the group, when it is a file format of its own; null for this one.</summary>
    public string? DescribedIn { get; init; }
}
