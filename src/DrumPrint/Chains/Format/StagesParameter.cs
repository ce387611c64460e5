using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>A key whose value is a list of processors.</summary>
internal sealed class StagesParameter(string key, string help) : Parameter(key, help);
