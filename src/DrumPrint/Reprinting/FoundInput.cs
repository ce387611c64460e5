using DrumPrint.Tickets;

namespace DrumPrint.Reprinting;

/// <summary>A raw file found again.</summary>
/// <param name="Input">What was looked for.</param>
/// <param name="Path">Where it is now.</param>
/// <param name="IsChanged">Whether other samples are in its place.</param>
/// <param name="IsElsewhere">Whether it lies somewhere else than beside the prints where the chain says.</param>
internal sealed record FoundInput(RecordedInput Input, string Path, bool IsChanged, bool IsElsewhere);
