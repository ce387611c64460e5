using DrumPrint.Listening;

namespace DrumPrint.Beginning;

/// <summary>What one file is taken for, and what it is given in the chain.</summary>
/// <param name="File">The file.</param>
/// <param name="Places">What each of its channels is taken for.</param>
internal sealed record Guess(RawFile File, IReadOnlyList<Place> Places)
{
    public Place Place => Places[0];

    public string Track { get; init; } = "";

    public bool IsInverted { get; init; }

    /// <summary>Delay that lines it up, without that of its time stamp.</summary>
    public double DelayMs { get; init; }

    /// <summary>What polarity and delay rest on, one line.</summary>
    public string Evidence { get; init; } = "";
}
