namespace DrumPrint.Archiving;

/// <summary>What was put away.</summary>
/// <param name="Folder">The archive.</param>
/// <param name="IsNew">Whether it was made now; false where it lay there already, the same to the last byte.</param>
/// <param name="Files">Files in it.</param>
/// <param name="Bytes">Their size together.</param>
/// <param name="Tracks">Raw files among them.</param>
/// <param name="Impulses">Impulses among them.</param>
/// <param name="Prints">Prints among them.</param>
public sealed record ArchiveReport(string Folder, bool IsNew, int Files, long Bytes, int Tracks, int Impulses, int Prints);
