using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Filters;

/// <summary>One second-order section (b0 + b1 z⁻¹ + b2 z⁻²) / (1 + a1 z⁻¹ + a2 z⁻²).</summary>
/// <remarks>Kept as polynomials in δ = z − 1, (b0 δ² + n1 δ + n2) / (δ² + d1 δ + d2). At low frequencies a1 is within a
/// hair of −2, and 1 + a1 + a2 loses half its digits. d1 and d2 keep them all (Middleton and Goodwin, Digital Control
/// and Estimation, 1990, from memory).</remarks>
/// <param name="B0">Coefficient of the newest input.</param>
/// <param name="N1">2 b0 + b1.</param>
/// <param name="N2">b0 + b1 + b2.</param>
/// <param name="D1">2 + a1.</param>
/// <param name="D2">1 + a1 + a2.</param>
public readonly record struct BiquadCoefficients(double B0, double N1, double N2, double D1, double D2)
{
    public double B1 => N1 - (2 * B0);

    public double B2 => N2 - N1 + B0;

    public double A1 => D1 - 2;

    public double A2 => D2 - D1 + 1;

    /// <summary>Takes the coefficients as textbooks print them, divided by a0.</summary>
    public static BiquadCoefficients FromDirect(double b0, double b1, double b2, double a1, double a2) =>
        new(b0, (2 * b0) + b1, b0 + b1 + b2, 2 + a1, 1 + a1 + a2);

    /// <summary>The same section, louder or softer.</summary>
    public BiquadCoefficients Times(double gain) => this with { B0 = B0 * gain, N1 = N1 * gain, N2 = N2 * gain };

    /// <summary>The section that undoes this one; stable when this one's zeros lie inside the unit circle.</summary>
    public BiquadCoefficients Inverse() => new(1 / B0, D1 / B0, D2 / B0, N1 / B0, N2 / B0);

    /// <summary>φ = sin²(ω/2) for a frequency as a part of the sample rate.</summary>
    public static double Phi(double part)
    {
        var sin = Elementary.Sin(Math.PI * part);
        return sin * sin;
    }

    /// <summary>The power response at φ = sin²(ω/2): 0 at 0 Hz, 1 at half the sample rate.</summary>
    public double PowerAt(double phi) => PowerAt(phi, B0, N1, N2) / PowerAt(phi, 1, D1, D2);

    /// <summary>The complex response at an angle ω in radians per sample.</summary>
    internal ComplexValue ResponseAt(double omega)
    {
        // e^jω − 1 = −2 sin²(ω/2) + j sin ω.
        var (sin, cos) = Elementary.SinCos(omega / 2);
        var delta = new ComplexValue(-2 * sin * sin, 2 * sin * cos);
        return ((((B0 * delta) + N1) * delta) + N2) / (((delta + D1) * delta) + D2);
    }

    // |k0 δ² + k1 δ + k2|² with |δ|² = 4φ, Re δ = −2φ, Re δ² = 8φ² − 4φ.
    private static double PowerAt(double phi, double k0, double k1, double k2) =>
        (k2 * k2) + (4 * phi * ((k1 * k1) - (k1 * k2) - (2 * k0 * k2) + (phi * 4 * ((k0 * k0) + (k0 * k2) - (k0 * k1)))));
}
