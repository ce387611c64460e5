namespace DrumPrint.Measuring;

/// <summary>Levels of one sort of hits in a recording, as highest samples in dB of full scale.</summary>
/// <param name="Count">How many there are.</param>
/// <param name="SoftDb">A tenth of them is softer; null where there are none.</param>
/// <param name="MiddleDb">Half of them is softer.</param>
/// <param name="LoudDb">A twentieth of them is louder.</param>
/// <param name="PeaksDb">Every one, in order of time.</param>
public sealed record LevelSpread(int Count, double? SoftDb, double? MiddleDb, double? LoudDb, IReadOnlyList<double> PeaksDb);

/// <summary>What a gate on a recording would meet.</summary>
/// <param name="File">The file as it was named.</param>
/// <param name="Hits">Its own drum, played out.</param>
/// <param name="Ghosts">Its own drum, more than 12 dB below a typical hit.</param>
/// <param name="Spill">Other drums; none where the file was measured alone.</param>
/// <param name="OpenDb">A threshold a third of the way from loud spill up to soft hits; null where the two overlap.</param>
/// <param name="Note">What the figures do not say, as a sentence; null for nothing.</param>
public sealed record HitReport(string File, LevelSpread Hits, LevelSpread Ghosts, LevelSpread Spill, double? OpenDb, string? Note);
