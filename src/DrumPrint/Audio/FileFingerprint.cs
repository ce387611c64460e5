namespace DrumPrint.Audio;

/// <summary>Hashes of one file; null where they were not asked for.</summary>
/// <param name="AudioSha256">Of its samples.</param>
/// <param name="FileSha256">Of all of it.</param>
/// <param name="Likeness">Of its samples, to tell whether they are still the same.</param>
internal sealed record FileFingerprint(string? AudioSha256, string? FileSha256, UInt128? Likeness);
