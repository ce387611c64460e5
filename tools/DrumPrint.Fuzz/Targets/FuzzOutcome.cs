namespace DrumPrint.Fuzz.Targets;

/// <summary>What became of one input.</summary>
/// <param name="IsAccepted">Whether it was taken for what it claims to be.</param>
/// <param name="AllocatedBytes">What was allocated on the way.</param>
internal readonly record struct FuzzOutcome(bool IsAccepted, long AllocatedBytes);
