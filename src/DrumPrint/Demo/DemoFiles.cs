namespace DrumPrint.Demo;

/// <summary>What the demo session consists of.</summary>
/// <param name="Chain">The chain file, ready to print.</param>
/// <param name="Tempo">The tempo map.</param>
/// <param name="Tracks">The raw tracks, in order.</param>
/// <param name="Impulses">The impulse responses.</param>
/// <param name="SampleRate">Hertz.</param>
/// <param name="Frames">Length of every raw track.</param>
public sealed record DemoFiles(string Chain, string Tempo, IReadOnlyList<string> Tracks, IReadOnlyList<string> Impulses, int SampleRate, long Frames)
{
    /// <summary>What was there already and was kept, in sentences.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];
}
