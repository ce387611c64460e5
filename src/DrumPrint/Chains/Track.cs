namespace DrumPrint.Chains;

/// <summary>One raw recording and how it is brought in wherever it is used.</summary>
/// <param name="Name">The word the chain uses.</param>
/// <param name="File">Path relative to the chain file.</param>
/// <param name="LevelDb">Level.</param>
/// <param name="IsInverted">Whether polarity is turned over.</param>
/// <param name="Delay">Delay.</param>
/// <param name="Convert">Whether another sample rate is resampled instead of refused.</param>
/// <param name="Line">Line in the chain file, from 1.</param>
public sealed record Track(string Name, string File, double LevelDb, bool IsInverted, PathDelay Delay, bool Convert, int Line)
{
    /// <summary>The microphone and where it stood; null when the chain says nothing.</summary>
    public string? Notes { get; init; }
}
