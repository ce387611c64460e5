namespace DrumPrint.Checking.Subjects;

/// <summary>What two ways of one track to one place will do to each other.</summary>
/// <param name="Place">Where they meet: a bus, or the rough.</param>
/// <param name="Track">The track.</param>
/// <param name="By">What it comes by.</param>
/// <param name="ApartMs">How far apart in time the two loudest of the ways are.</param>
/// <param name="BesideDb">By how much the second of them is softer than the first.</param>
/// <param name="DepthDb">How deep the deepest dip is, against both in step, in dB.</param>
/// <param name="DipsHz">Where the dips are, at the deepest of each; none where all frequencies are softer alike.</param>
internal sealed record ForecastComb(string Place, string Track, IReadOnlyList<string> By, double ApartMs, double BesideDb, double DepthDb, IReadOnlyList<double> DipsHz);
