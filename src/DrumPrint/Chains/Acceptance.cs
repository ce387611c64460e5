namespace DrumPrint.Chains;

/// <summary>A finding of a check that somebody has looked at and means to keep.</summary>
/// <param name="Rule">Its rule, such as <c>C1</c>.</param>
/// <param name="Track">Track, bus or print it is about; null for the whole set.</param>
/// <param name="Why">The reason, for whoever gets the files.</param>
/// <param name="UpTo">Places it stands for at most; null for any number.</param>
/// <param name="Line">Line in the chain file, from 1.</param>
public sealed record Acceptance(string Rule, string? Track, string Why, int? UpTo, int Line);
