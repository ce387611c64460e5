using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>A key whose value is a group of keys.</summary>
internal sealed class ShapeParameter(string key, Shape shape, string help) : Parameter(key, help)
{
    public Shape Shape { get; } = shape;
}
