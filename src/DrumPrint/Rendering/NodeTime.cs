namespace DrumPrint.Rendering;

/// <summary>Time one step of a render took.</summary>
/// <param name="Name">The step: a track, a bus, <c>bus/processor</c>, or a file.</param>
/// <param name="Seconds">Time spent in it, over all blocks.</param>
public sealed record NodeTime(string Name, double Seconds);
