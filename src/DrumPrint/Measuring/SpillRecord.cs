namespace DrumPrint.Measuring;

/// <summary>What a <c>spill</c> does to one hit that its microphone hears.</summary>
/// <param name="Seconds">Where it begins, in the song.</param>
/// <param name="Place">Bar and beat, such as <c>24:3.25</c>; null without a tempo map and after its end.</param>
/// <param name="LevelDb">Its level before: the root of the mean power of its loudest 8 ms, dB of full scale.</param>
/// <param name="ChangeDb">By how much that goes up or, below zero, down.</param>
public sealed record SpilledHit(double Seconds, string? Place, double LevelDb, double ChangeDb);

/// <summary>What a <c>spill</c> of a chain will do, told from a run up to it.</summary>
/// <param name="Bus">The bus it stands in.</param>
/// <param name="Key">The track or bus that hears the other drum better.</param>
/// <param name="Line">Its line in the chain file, from 1.</param>
/// <param name="AmountDb">The most that it may turn down.</param>
/// <param name="Hits">Hits of the microphone's own drum, in order of time.</param>
/// <param name="Ghosts">Its own drum, more than 12 dB below a typical hit.</param>
/// <param name="Spill">What the key's drum plays.</param>
public sealed record SpillRecord(string Bus, string Key, int Line, double AmountDb, IReadOnlyList<SpilledHit> Hits, IReadOnlyList<SpilledHit> Ghosts, IReadOnlyList<SpilledHit> Spill)
{
    /// <summary>A hit that goes down by more than this is told by its place.</summary>
    public const double LostDb = 1;

    /// <summary>Hits and ghosts that lose more than <see cref="LostDb"/>, in order of time.</summary>
    public IReadOnlyList<SpilledHit> Lost => [.. Hits.Concat(Ghosts).Where(h => h.ChangeDb < -LostDb).OrderBy(h => h.Seconds)];
}
