namespace DrumPrint.Live;

/// <summary>What a processor that moves the gain did over the song, for a picture and a sentence.</summary>
/// <param name="Bus">Its bus; empty for the drum bus.</param>
/// <param name="Name">Its key in the chain, with the part of it that this is and a number where the bus has more than one.</param>
/// <param name="Lowest">The lowest linear gain of each part of the song, from start to end.</param>
/// <param name="MostDb">By how much it turned down at most; 0 where it never did.</param>
/// <param name="MostAtS">Where that was, in seconds of the song.</param>
public sealed record StageLine(string Bus, string Name, IReadOnlyList<float> Lowest, double MostDb, double MostAtS)
{
    /// <summary>When it was open; null for what is no gate.</summary>
    public GateLine? Gate { get; init; }
}

/// <summary>When a gate was open, and what it lost.</summary>
/// <param name="Open">Stretches in which it was open, in seconds of the song, to 10 ms. A gate is open when it lets more than half through.</param>
/// <param name="HitCount">Hits of its own drum that came to it; null where they are not counted.</param>
/// <param name="Lost">Those of them that stayed over 12 dB down behind it, as <c>check</c> has them.</param>
/// <param name="NotCounted">Why hits are not counted, in a sentence; null where they are.</param>
public sealed record GateLine(IReadOnlyList<(double FromS, double ToS)> Open, int? HitCount, IReadOnlyList<LostHit> Lost, string? NotCounted);

/// <summary>A hit that a gate lost.</summary>
/// <param name="AtS">When, in seconds of the song.</param>
/// <param name="PeakDb">Its highest sample before the gate, in dBFS.</param>
public sealed record LostHit(double AtS, double PeakDb);
