namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Tolerances of the word-length tests, each with its reason.</summary>
internal static class WordLengthTolerance
{
    /// <summary>Asked of the dither's power. The estimate itself scatters by about 0.01 dB over 400 000 samples.</summary>
    public const double PowerDb = 0.1;

    /// <summary>Mean error in steps. Four standard deviations of the mean of 400 000 samples of variance 1/4.</summary>
    public const double MeanSteps = 0.0032;

    /// <summary>Variance of the error in steps squared, from the same count.</summary>
    public const double VarianceSteps = 0.003;

    /// <summary>Correlation of two series of 400 000 samples that have none: four standard deviations.</summary>
    public const double Correlation = 0.0064;

    /// <summary>A line of the spectrum of 65 536 samples of noise keeps below twelve times the mean power but once in
    /// 160 000 lines; in decibels.</summary>
    public const double LineOverFloorDb = 10.8;

    /// <summary>Power in an eighth of the spectrum, averaged over 4096 lines: four standard deviations, in
    /// decibels.</summary>
    public const double BandDb = 0.28;
}
