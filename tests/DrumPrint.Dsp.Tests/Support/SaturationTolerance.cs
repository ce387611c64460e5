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

    /// <summary>The filter that makes the head's losses against their formulas, in dB. The losses have a corner at 0 Hz, which
    /// the filter's length rounds. For the worst head there is, that is 0.048 dB at 400 Hz, the same at every rate.</summary>
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

    /// <summary>Weight of the soft curve's slope over a way, as a part: its ratio of polynomials, to ways across zero of 20 each side.</summary>
    public const double SoftSlopePart = 4e-4;

    /// <summary>The same for its bend, as a part of half the slope's weight.</summary>
    public const double SoftBendPart = 4e-3;

    /// <summary>Means of Langevin's function over a short way: the cubic through its ends.</summary>
    public const double ShortWay = 1e-5;

    /// <summary>Means of it over a long way: its antiderivatives are good to 2·10⁻¹⁰.</summary>
    public const double LongWay = 1e-8;

    /// <summary>Folded products of a full-scale sine to 19 kHz driven 24 dB into any curve, in dB: the bar set for the processor.</summary>
    public const double DrivenFoldedDb = -95;

    /// <summary>The same to 20 kHz or driven 36 dB.</summary>
    public const double FarDrivenFoldedDb = -80;

    /// <summary>Folded products of a sine to 16 kHz on tape at 15 and 30 in/s without drive, in dB: the bar set for the processor.</summary>
    public const double TapeFoldedDb = -80;

    /// <summary>The same at 7.5 in/s.</summary>
    public const double SlowTapeFoldedDb = -60;

    /// <summary>The same with 12 dB of drive, at any speed.</summary>
    public const double DrivenTapeFoldedDb = -50;

    /// <summary>The same as <see cref="MediumPart"/> where the field moves by 1 in a step and the rate is 1.5.</summary>
    public const double HotMediumPart = 7e-3;

    /// <summary>The medium against its equations solved in steps a thousand times as short, as a part of the peak. Ours has one
    /// rate over a step, of the second order in the step.</summary>
    public const double MediumPart = 2e-3;

    /// <summary>Phase of a small signal on tape from 2.5 kHz up, against the stated latency, in degrees. It comes from the steady
    /// level's high-passes, 0.1° at 2.5 kHz, and from what the two taps against the memory's lag leave.</summary>
    public const double TapePhaseDegrees = 0.2;
}
