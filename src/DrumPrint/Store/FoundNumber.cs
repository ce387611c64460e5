namespace DrumPrint.Store;

/// <summary>A number that was found for a goal.</summary>
/// <param name="Number">The number.</param>
/// <param name="Words">What it brings about, as the end of a sentence.</param>
internal sealed record FoundNumber(double Number, string Words);
