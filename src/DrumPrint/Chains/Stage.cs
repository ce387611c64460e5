using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains;

/// <summary>One processor in a bus, with its checked settings.</summary>
/// <param name="Definition">Kind and revision.</param>
/// <param name="Settings">Values, defaults filled in.</param>
/// <param name="Key">Track or bus the detector listens to; null for its own input.</param>
/// <param name="Line">Line in the chain file, from 1.</param>
public sealed record Stage(ProcessorDefinition Definition, Settings Settings, string? Key, int Line);
