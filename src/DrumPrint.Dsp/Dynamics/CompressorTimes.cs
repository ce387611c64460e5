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
    /// <summary>All of them together, in milliseconds.</summary>
    public double SumMs => AttackMs + ReleaseMs + (RmsMs ?? 0) + HoldMs + (SlowReleaseMs is { } slow ? slow + SlowAfterMs : 0);

    /// <summary>Whether a reduction does anything but fall once.</summary>
    public bool HasLateRelease => HoldMs > 0 || SlowReleaseMs is not null;
}
