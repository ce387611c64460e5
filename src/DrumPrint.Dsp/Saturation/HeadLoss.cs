using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Saturation;

/// <summary>Loss of short waves at a playback head: spacing, thickness of the coating and gap together.</summary>
/// <remarks>
/// Wallace (1951) for spacing, e^−kd, and thickness, (1 − e^−kδ)/(kδ), with k = 2π/λ; sin(πg/λ)/(πg/λ) for the gap, g being
/// 1.11 times the optical gap (Eargle). One number scales the three lengths together, so that the curve is that of one
/// machine in better or worse order.
/// </remarks>
internal sealed class HeadLoss
{
    /// <summary>Frequency at which the loss is stated.</summary>
    public const double StatedHz = 14000;

    private const double SpacingMetres = 1e-6;
    private const double ThicknessMetres = 10e-6;
    private const double GapMetres = 1.11 * 3e-6;
    private const double MetresPerInch = 0.0254;

    private readonly double _metresPerSecond;
    private readonly double _scale;

    /// <param name="speed">Tape speed in inches per second.</param>
    /// <param name="gain">Gain at <see cref="StatedHz"/>, above 0 and at most 1.</param>
    public HeadLoss(double speed, double gain)
    {
        _metresPerSecond = speed * MetresPerInch;
        var wavelength = _metresPerSecond / StatedHz;
        var (low, high) = (0.0, wavelength / GapMetres);
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = Total(middle, wavelength) > gain ? (middle, high) : (low, middle);
        }

        _scale = gain < 1 ? low : 0;
    }

    /// <summary>Gain at a frequency.</summary>
    public double GainAt(double freqHz) => freqHz == 0 ? 1 : Total(_scale, _metresPerSecond / freqHz);

    /// <summary>Gain left by a gap between head and coating.</summary>
    public static double Spacing(double metres, double wavelength) => Elementary.Exp(-2 * Math.PI * metres / wavelength);

    /// <summary>Gain left by a coating's depth.</summary>
    public static double Thickness(double metres, double wavelength)
    {
        var x = 2 * Math.PI * metres / wavelength;
        return x == 0 ? 1 : -Elementary.Expm1(-x) / x;
    }

    /// <summary>Gain left by a head gap of an effective length.</summary>
    public static double Gap(double metres, double wavelength)
    {
        var x = Math.PI * metres / wavelength;
        return x == 0 ? 1 : Elementary.Sin(x) / x;
    }

    private static double Total(double scale, double wavelength) =>
        Spacing(scale * SpacingMetres, wavelength) * Thickness(scale * ThicknessMetres, wavelength) * Gap(scale * GapMetres, wavelength);
}
