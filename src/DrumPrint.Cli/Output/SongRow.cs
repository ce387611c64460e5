using DrumPrint.Delivering;

namespace DrumPrint.Cli.Output;

/// <summary>What became of a song.</summary>
/// <param name="Song">As it was named.</param>
/// <param name="Code">Its exit code; null when it was not begun.</param>
/// <param name="Figures">Its figures; null when it is not printed.</param>
internal sealed record SongRow(string Song, int? Code, SongFigures? Figures);
