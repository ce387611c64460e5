namespace DrumPrint.Aligning;

/// <summary>How the microphones of a session lie against each other.</summary>
/// <param name="ChainPath">The chain.</param>
/// <param name="RateHz">Frames in a second.</param>
/// <param name="Rows">Every pair that was looked at, drum by drum.</param>
/// <param name="Notes">Tracks that were left out, and why.</param>
public sealed record AlignmentReport(string ChainPath, int RateHz, IReadOnlyList<AlignmentRow> Rows, IReadOnlyList<string> Notes);
