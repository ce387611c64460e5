using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>A key whose value is a list of sentences.</summary>
internal sealed class TextsParameter(string key, string help) : Parameter(key, help);
