namespace DrumPrint.Session;

/// <summary>Part of a song to write, in frames.</summary>
/// <param name="From">First frame.</param>
/// <param name="To">One past the last frame; null for the end with its tail.</param>
/// <param name="IsWhole">Whether that is the whole song, at a length and trim known from an earlier run.</param>
internal sealed record SongStretch(long From, long? To, bool IsWhole = false);
