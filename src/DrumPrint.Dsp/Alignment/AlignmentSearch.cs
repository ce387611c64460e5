namespace DrumPrint.Dsp.Alignment;

/// <summary>Where the delay between two microphones is looked for.</summary>
public sealed record AlignmentSearch
{
    /// <summary>How much earlier than the close microphone the other one may hear the drum, in ms, 0 or less.</summary>
    public double EarliestMs { get; init; } = -5;

    /// <summary>How much later, in ms; 30 ms are 10 m.</summary>
    public double LatestMs { get; init; } = 30;

    /// <summary>Hits that are listened to at most.</summary>
    public int MostHits { get; init; } = 64;

    /// <summary>Delays at which other drums, hit together with this one, reach the second microphone, in frames: nothing is looked for
    /// there.</summary>
    public IReadOnlyList<double> NotAtFrames { get; init; } = [];
}
