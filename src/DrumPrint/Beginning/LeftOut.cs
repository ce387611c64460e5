namespace DrumPrint.Beginning;

/// <summary>A file that is not in the chain.</summary>
/// <param name="File">The file, from the session's folder.</param>
/// <param name="Why">Why not, without a full stop.</param>
public sealed record LeftOut(string File, string Why);
