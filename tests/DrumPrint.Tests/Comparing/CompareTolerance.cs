namespace DrumPrint.Tests.Comparing;

/// <summary>Every tolerance of these tests, each with its reason.</summary>
internal static class CompareTolerance
{
    /// <summary>Decibels of ratios of sums of half a million products in 64-bit arithmetic.</summary>
    public const double RatioDb = 1e-9;

    /// <summary>Own bar for what may be left between both sides after matching: a twentieth of what ears tell apart at best.</summary>
    public const double MatchDb = 0.05;

    /// <summary>Where a low tone is cut off at both ends of a stretch, a little of it leaves its third octave. The worst here is
    /// 0.024 dB of 6 s at 31.5 Hz.</summary>
    public const double BandDb = 0.03;

    /// <summary>A hit is found in slices of a millisecond.</summary>
    public const double OnsetS = 0.002;

    /// <summary>Level of a stretch of noise of some thousand samples, not of the noise's own law. Own bar: the spread of a mean
    /// power over n samples is √(2/n), 0.1 dB of four thousand.</summary>
    public const double NoiseDb = 0.15;
}
