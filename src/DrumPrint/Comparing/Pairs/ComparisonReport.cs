namespace DrumPrint.Comparing.Pairs;

/// <summary>Everything a comparison found.</summary>
/// <param name="Main">The pair in front, with its sound.</param>
/// <param name="Others">Further prints that were compared, by number; empty for single files.</param>
/// <param name="Recipe">Settings in which two chains differ, as far as they reach the print in front.</param>
/// <param name="Notes">What a reader should know, in sentences.</param>
public sealed record ComparisonReport(Comparison Main, IReadOnlyList<Comparison> Others, IReadOnlyList<string> Recipe, IReadOnlyList<string> Notes);
