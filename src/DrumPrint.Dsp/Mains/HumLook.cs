namespace DrumPrint.Dsp.Mains;

/// <summary>What one stretch holds of each harmonic, how that changes, and how loud the drums are beside it.</summary>
/// <param name="harmonics">How many.</param>
internal sealed class HumLook(int harmonics)
{
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
}
