using DrumPrint.Audio;
using DrumPrint.Session;

namespace DrumPrint.Planning;

/// <summary>What a graph is to compute.</summary>
/// <param name="Targets">Files that are rendered: to be written, or to be measured only.</param>
/// <param name="TrimDb">Common trim of all prints.</param>
/// <param name="ToCap">Whether tails are rendered to the cap instead of where the buses say they are over.</param>
/// <param name="KnownTailTo">Where the tails of the other files are over; 0 without others.</param>
/// <param name="Hashes">Which hashes are taken of raw files as they are read.</param>
internal sealed record PlanRequest(IReadOnlyList<PrintTarget> Targets, double TrimDb, bool ToCap, long KnownTailTo, AudioHashes Hashes = AudioHashes.None);
