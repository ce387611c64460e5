namespace DrumPrint.Demo.Playing;

/// <summary>One note of the performance.</summary>
/// <param name="Stroke">What is struck.</param>
/// <param name="Frame">When, in frames from the start of the file.</param>
/// <param name="LevelDb">How hard, against the stroke's full level.</param>
/// <param name="Take">Which of the slightly different sounds of this stroke it is.</param>
/// <param name="StopFrame">When the ringing is stopped by the next stroke on the same cymbal; <see cref="long.MaxValue"/> when it rings out.</param>
internal readonly record struct PlayedHit(Stroke Stroke, long Frame, double LevelDb, int Take, long StopFrame);
