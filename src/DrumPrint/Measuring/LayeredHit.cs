namespace DrumPrint.Measuring;

/// <summary>One hit under which a chain plays a sound.</summary>
/// <param name="Seconds">Where it begins, in the song.</param>
/// <param name="Place">Bar and beat, such as <c>24:3.25</c>; null without a tempo map and after its end.</param>
/// <param name="LevelDb">Highest sample of its first 8 ms, dBFS.</param>
/// <param name="GainDb">What the sound is raised or lowered by.</param>
/// <param name="IsInverted">Whether the sound is turned over.</param>
/// <param name="LikenessPct">How much hit and sound are alike, by their correlation.</param>
public sealed record LayeredHit(double Seconds, string? Place, double LevelDb, double GainDb, bool IsInverted, double LikenessPct);

/// <summary>All hits of one <c>layer</c> in a chain.</summary>
/// <param name="Bus">The bus it stands in.</param>
/// <param name="Sound">What is played.</param>
/// <param name="Line">Its line in the chain file, from 1.</param>
/// <param name="Hits">The hits, in order of time.</param>
public sealed record LayerRecord(string Bus, string Sound, int Line, IReadOnlyList<LayeredHit> Hits);
