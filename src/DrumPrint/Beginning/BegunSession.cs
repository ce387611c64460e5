namespace DrumPrint.Beginning;

/// <summary>A chain that was begun, and what it rests on.</summary>
/// <param name="ChainPath">The chain.</param>
/// <param name="Tracks">What is in it.</param>
/// <param name="LeftOut">Files that are not, and why.</param>
/// <param name="Notes">What else to know, in sentences.</param>
/// <param name="Evidence">What was heard of every file, in sentences.</param>
public sealed record BegunSession(
    string ChainPath, IReadOnlyList<BegunTrack> Tracks, IReadOnlyList<LeftOut> LeftOut, IReadOnlyList<string> Notes, IReadOnlyList<string> Evidence);

/// <summary>One file of a chain that was begun.</summary>
/// <param name="Name">What the chain calls it.</param>
/// <param name="File">The file.</param>
/// <param name="Role">What it is taken for.</param>
/// <param name="Drum">Its drum; empty where it has none.</param>
/// <param name="IsInverted">Whether it is turned over.</param>
/// <param name="DelayMs">Delay that lines it up with its drum.</param>
/// <param name="Why">What says so.</param>
public sealed record BegunTrack(string Name, string File, string Role, string Drum, bool IsInverted, double DelayMs, string Why);
