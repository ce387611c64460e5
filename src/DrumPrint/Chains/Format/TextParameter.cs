using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>A text in quotes: a title, a path, or the name of something else in the file.</summary>
internal sealed class TextParameter(string key, TextKind kind, string help) : Parameter(key, help)
{
    public TextKind Kind { get; } = kind;

    /// <summary>Value when the file gives none; null means none (or required).</summary>
    public string? Default { get; init; }
}
