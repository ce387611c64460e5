namespace DrumPrint.Chains;

/// <summary>One input of a bus.</summary>
/// <param name="Source">Name of a track or bus.</param>
/// <param name="LevelDb">Level.</param>
/// <param name="PanPct">−100 hard left to 100 hard right; null leaves a mono feed mono.</param>
/// <param name="IsInverted">Whether polarity is turned over.</param>
/// <param name="Delay">Delay.</param>
/// <param name="Rides">Level changes over time.</param>
/// <param name="Line">Line in the chain file, from 1.</param>
public sealed record Feed(string Source, double LevelDb, double? PanPct, bool IsInverted, PathDelay Delay, IReadOnlyList<Ride> Rides, int Line);
