namespace DrumPrint.Session;

/// <summary>What one run found out and another, which makes the same prints again, is given.</summary>
/// <remarks>A print made alone cannot know the length and trim that the other prints of its session called for.</remarks>
/// <param name="Frames">Length of every print.</param>
/// <param name="TrimDb">Common trim.</param>
/// <param name="Places">Where raw files are now, by the path the chain gives.</param>
internal sealed record SettledRun(long Frames, double TrimDb, IReadOnlyDictionary<string, string> Places);
