using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>A key whose value is a list of sentences, or of files.</summary>
internal sealed class TextsParameter(string key, string help) : Parameter(key, help)
{
    /// <summary>Whether each text is the path of a file, of which one is named at least and none twice.</summary>
    public bool ArePaths { get; init; }
}
