namespace DrumPrint.Dsp.Dynamics;

/// <summary>The times of a compressor in milliseconds.</summary>
/// <param name="AttackMs">To 63.2 % of a rise of the reduction.</param>
/// <param name="ReleaseMs">To 63.2 % of its fall.</param>
/// <param name="RmsMs">Averaging time of the RMS detector; null for a peak detector.</param>
/// <param name="HoldMs">How long a reduction stays before it falls.</param>
/// <param name="SlowReleaseMs">The release of what has lasted; null where there is one release only.</param>
/// <param name="SlowAfterMs">How long a reduction lasts until 63.2 % of it comes back slowly.</param>
internal readonly record struct CompressorTimes(double AttackMs, double ReleaseMs, double? RmsMs, double HoldMs, double? SlowReleaseMs, double SlowAfterMs)
{
    /// <summary>Whether attack and release are the longest ones, and the crest factor shortens them.</summary>
    public bool IsByCrest { get; init; }

    /// <summary>Depth at which a reduction comes back twice as fast; null where depth changes nothing.</summary>
    public double? DeepDb { get; init; }

    /// <summary>Whether the times move.</summary>
    public bool Move => IsByCrest || DeepDb is not null;

    /// <summary>All of them together, in milliseconds; a square wave's are twice a sine's.</summary>
    public double SumMs => ((AttackMs + ReleaseMs) * (IsByCrest ? 2 : 1)) + (IsByCrest ? CrestTimes.MemoryMs : 0) + (RmsMs ?? 0) + HoldMs + (SlowReleaseMs is { } slow ? slow + SlowAfterMs : 0);

    /// <summary>Whether a reduction does anything but fall once.</summary>
    public bool HasLateRelease => HoldMs > 0 || SlowReleaseMs is not null;
}
