namespace DrumPrint.Reprinting;

/// <summary>A chain file that was written again.</summary>
/// <param name="Path">The chain.</param>
/// <param name="TempoPath">The tempo map written with it; null when none was.</param>
/// <param name="Notes">What to know of it, in sentences.</param>
public sealed record RecoveredChain(string Path, string? TempoPath, IReadOnlyList<string> Notes);
