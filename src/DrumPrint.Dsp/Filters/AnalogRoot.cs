using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Filters;

/// <summary>A pole or zero of an analog filter, in radians per sample, and the digital one that stands for it: z = e^root.</summary>
/// <remarks>Roots above half the sample rate would fold back into what is heard; they are held at it.</remarks>
/// <param name="Value">The root; its real part is not above 0.</param>
internal readonly record struct AnalogRoot(ComplexValue Value)
{
    private const double Reach = 700;

    private ComplexValue Held => new(Math.Max(Value.Re, -Reach), Math.Clamp(Value.Im, -Math.PI, Math.PI));

    /// <summary>z − 1, without loss near 0.</summary>
    public ComplexValue Delta => Expm1(Held);

    /// <summary>What the analog root gives over what the digital one gives at an angle ω: (jω − root) / (1 − e^(root − jω)).
    /// Scaled so that it is 1 at 0 Hz.</summary>
    public ComplexValue RatioAt(double omega) => Quotient(omega) / Quotient(0);

    /// <summary>The same at 0 Hz, not yet made 1: what the gain of the section must make up for.</summary>
    public ComplexValue Quotient(double omega)
    {
        var exponent = Held - new ComplexValue(0, omega);
        return exponent.Power == 0 ? 1 : (Value - new ComplexValue(0, omega)) / Expm1(exponent);
    }

    // e^(a + jb) − 1 = (e^a − 1) cos b − 2 sin²(b/2) + j e^a sin b.
    private static ComplexValue Expm1(ComplexValue x)
    {
        var (halfSin, halfCos) = Elementary.SinCos(x.Im / 2);
        var grown = Elementary.Expm1(x.Re);
        var sin = 2 * halfSin * halfCos;
        var bend = 2 * halfSin * halfSin;
        return new(grown - (grown * bend) - bend, (grown + 1) * sin);
    }
}
