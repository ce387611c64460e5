namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Tolerances of the meter tests, each with its reason.</summary>
internal static class MeterTolerance
{
    /// <summary>EBU Tech 3341 allows 0.1 LU.</summary>
    public const double LoudnessLu = 0.1;

    /// <summary>EBU Tech 3342 allows 1 LU; whole windows of steady tones leave much less.</summary>
    public const double RangeLu = 0.1;

    /// <summary>The weighting at 48 kHz against figures with four decimals.</summary>
    public const double WeightingDb = 1e-4;

    /// <summary>The weighting at other rates against 48 kHz, worst seen 0.008 dB at 192 kHz.</summary>
    public const double WeightingRateDb = 0.01;

    /// <summary>A mean over 400 ms of a sine that does not fit a whole number of times.</summary>
    public const double ExactLu = 0.002;

    /// <summary>Tech 3341 allows a true peak 0.4 dB too low …</summary>
    public const double TruePeakUnderDb = 0.4;

    /// <summary>… and 0.2 dB too high.</summary>
    public const double TruePeakOverDb = 0.2;

    /// <summary>The standard's table has three decimals.</summary>
    public const double PrintedDb = 0.001;

    /// <summary>Ripple of the interpolator (60 dB) and of the slow reference.</summary>
    public const double InterpolatorDb = 0.02;

    /// <summary>Sums of 48,000 squares, in dB.</summary>
    public const double SumDb = 1e-9;

    /// <summary>Decay time of decaying noise, as a part of it: the noise's own unevenness; worst seen 0.004.</summary>
    public const double DecayPart = 0.01;

    /// <summary>Levels are counted in steps of one part in 1024, so a window that lies as close to the bound may fall on its other side: at most
    /// a window or two in a thousand.</summary>
    public const double SharePart = 0.002;
}
