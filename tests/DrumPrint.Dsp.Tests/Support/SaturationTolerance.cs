namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Tolerances of the oversampling and saturation tests, each with its reason.</summary>
internal static class SaturationTolerance
{
    /// <summary>The flat band of the oversampling filters, in dB: the bar set for them; windowed designs do far better.</summary>
    public const double PassBandDb = 0.01;

    /// <summary>Images, and what would fold back, against the signal, in dB: the bar set for the filters.</summary>
    public const double StopBandDb = -120;

    /// <summary>The same for the filters after the first, many of which follow one another, in dB: the bar set for them.</summary>
    public const double LaterStopBandDb = -128;

    /// <summary>Folded products against a 5 kHz sine at 3 % third harmonic, in dB: the bar set for the processors.</summary>
    public const double FoldedDb = -100;

    /// <summary>Playback equalisation and losses against their formulas, in dB: the bar set for the tape.</summary>
    public const double TapeResponseDb = 0.2;

    /// <summary>The filter that makes the head's losses against their formulas, in dB: they have a corner at 0 Hz, which its length rounds,
    /// by 0.048 dB at 400 Hz for the worst head there is, the same at every rate.</summary>
    public const double HeadLossDb = 0.06;

    /// <summary>A recorder is aligned to within this at low level, in dB.</summary>
    public const double AlignmentDb = 0.1;

    /// <summary>The 3 % level against where it was asked for, in dB.</summary>
    public const double CalibrationDb = 0.5;

    /// <summary>The hysteresis solver against integration with 20 000 steps, as a part.</summary>
    public const double LoopPart = 0.01;

    /// <summary>The mean along the chord between samples against the mean along the sine: second order in the step at 384 kHz.</summary>
    public const double Chord = 2e-5;

    /// <summary>An unbent signal blended with itself, in dB: the window of the last filter smooths the correction of the
    /// stage's droop, most at 2 times.</summary>
    public const double BlendDb = -110;

    /// <summary>Langevin's function below 4, relative: the design value of its ratio of polynomials, −268 dB.</summary>
    public const double LangevinPart = 4e-14;

    /// <summary>Langevin's function from 4, relative: a few roundings.</summary>
    public const double FarLangevinPart = 2e-15;

    /// <summary>Curves against their formulas: a few roundings.</summary>
    public const double Curve = 1e-14;
}
