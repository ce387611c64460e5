using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>A key whose value is a list of groups of keys.</summary>
internal sealed class ShapesParameter(string key, Shape shape, string help) : Parameter(key, help)
{
    public Shape Shape { get; } = shape;

    /// <summary>What to say when there is no item; null when that is fine.</summary>
    public string? WhenEmpty { get; init; }
}
