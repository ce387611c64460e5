namespace DrumPrint.Dsp.Mains;

/// <summary>What one stretch holds of each harmonic, how that changes, and how loud the drums are beside it.</summary>
/// <param name="harmonics">How many.</param>
internal sealed class HumLook(int harmonics)
{
    // A change by more than this, against the power beside, is no noise; and what dies away is louder than its change.
    private const double Clear = 4;
    private const double Louder = 2;

    // −200 dB: what a file of 24 bits cannot hold is no hum, and no drum.
    private const double Nothing = 1e-20;

    /// <summary>Real parts, at the middle of the stretch.</summary>
    public double[] Re { get; } = new double[harmonics];

    /// <summary>Imaginary parts.</summary>
    public double[] Im { get; } = new double[harmonics];

    /// <summary>Real parts of how each changes over the stretch.</summary>
    public double[] ChangeRe { get; } = new double[harmonics];

    /// <summary>Imaginary parts.</summary>
    public double[] ChangeIm { get; } = new double[harmonics];

    /// <summary>The power beside each.</summary>
    public double[] Beside { get; } = new double[harmonics];

    /// <summary>What it counts for a harmonic: one over the power of what is no hum. What rings at the very place of a harmonic is not heard
    /// beside it, but it changes.</summary>
    /// <param name="harmonic">Which, from 0.</param>
    /// <param name="turnsPerStep">How far the mains are from the basis.</param>
    public double Weight(int harmonic, double turnsPerStep)
    {
        var power = Beside[harmonic];
        var turned = HumBasis.ChangePerTurn * HumBasis.StepsPerLook * (harmonic + 1) * turnsPerStep;
        var (re, im) = (ChangeRe[harmonic] - (turned * Im[harmonic]), ChangeIm[harmonic] + (turned * Re[harmonic]));
        power += Louder * Math.Max(0, (re * re) + (im * im) - (Clear * power));
        return power > Nothing ? 1 / power : 0;
    }
}
