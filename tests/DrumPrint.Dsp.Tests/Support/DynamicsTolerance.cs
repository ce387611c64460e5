namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Tolerances of the dynamics tests, each with its reason.</summary>
internal static class DynamicsTolerance
{
    /// <summary>A level that stands still, against a closed formula in dB: logarithm, curve and exponential each add a few
    /// roundings of numbers around 100.</summary>
    public const double StandingDb = 1e-9;

    /// <summary>The same read by a compressor: two filters in a row that each stray by 120 dB.</summary>
    public const double LevelDb = 2e-4;

    /// <summary>What is left of an edge between two levels, overshot between the samples and held.</summary>
    public const double EdgeDb = 0.02;

    /// <summary>A sine between whose peaks the detector lets go a little.</summary>
    public const double SineDb = 0.05;

    /// <summary>Frame-by-frame agreement of two ways to reckon the same gain, in dB.</summary>
    public const double SameGainDb = 1e-9;

    /// <summary>Times of the feed-forward detector, as a part of the dial.</summary>
    public const double FeedForwardTime = 0.03;

    /// <summary>Times of the feedback detector, as a part of the dial.</summary>
    public const double FeedbackTime = 0.05;

    /// <summary>A store that fills and empties, against its formula, in dB: some frames of an edge at its steepest.</summary>
    public const double StoreDb = 0.03;

    /// <summary>Ramps worked out by repeated multiplication or rotation against their formula: a rounding for each frame.</summary>
    public const double Ramp = 1e-10;

    /// <summary>Kernel for the logarithm, in dB; its stated error.</summary>
    public const double KernelDb = 1e-12;

    /// <summary>Kernel for the exponential, as a part of the gain; its stated error.</summary>
    public const double KernelGain = 1e-14;

    /// <summary>Times that move with the sound: an edge of eight frames is read between the samples too, and the gain's filters round it.</summary>
    public const double MovingDb = 0.05;
}
