namespace DrumPrint.Carrying;

/// <summary>A chain that was carried to another session, and what became of it.</summary>
/// <param name="ChainPath">The new chain.</param>
/// <param name="Tracks">Every track, in the chain's order.</param>
/// <param name="Unused">Sound files of the new session that no track takes.</param>
/// <param name="Moved">Microphones that stand elsewhere than before, or are turned over, in sentences.</param>
/// <param name="LeftBehind">What is the old song's own and was not carried, in sentences.</param>
/// <param name="Notes">What else to know, in sentences.</param>
public sealed record CarriedSession(
    string ChainPath,
    IReadOnlyList<CarriedTrack> Tracks,
    IReadOnlyList<string> Unused,
    IReadOnlyList<string> Moved,
    IReadOnlyList<string> LeftBehind,
    IReadOnlyList<string> Notes)
{
    /// <summary>Whether every track has its file.</summary>
    public bool IsWhole => Tracks.All(t => t.Now is not null);
}

/// <summary>One track of a chain that was carried.</summary>
/// <param name="Name">What the chain calls it.</param>
/// <param name="Before">Its file in the old session.</param>
/// <param name="Now">Its file in the new one; null where none was found.</param>
/// <param name="Why">What says so, or why none was found.</param>
public sealed record CarriedTrack(string Name, string Before, string? Now, string Why);
