using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Mixing;

/// <summary>How loud a panned signal is on each side.</summary>
/// <remarks>One family of curves, with k = law / −3.01 dB. The near side is cos^k of 45° × (1 − |pan|), the far side
/// sin^max(k, 1) of the same. The far side is scaled to meet the law at the centre. A law of −3.01 dB gives the
/// sine–cosine law, −6.02 dB the sum-to-one law. 0 dB gives a balance whose near side stays at unity.</remarks>
public static class PanLaw
{
    private const double SineCosineCentreDb = -3.010299956639812;
    private const double QuarterTurnHalf = 0.7853981633974483;

    /// <summary>Gains of a mono signal.</summary>
    /// <param name="panPct">−100 hard left to 100 hard right.</param>
    /// <param name="lawDb">Level on each side at the centre, 0 or below.</param>
    public static (double Left, double Right) Mono(double panPct, double lawDb)
    {
        var k = lawDb / SineCosineCentreDb;
        var amount = Math.Abs(panPct) / 100;
        double near, far;
        if (amount == 0)
        {
            near = far = Decibels.ToGain(lawDb);
        }
        else if (amount >= 1)
        {
            (near, far) = (1, 0);
        }
        else
        {
            var (sin, cos) = Elementary.SinCos(QuarterTurnHalf * (1 - amount));
            var exponent = Math.Max(k, 1);
            near = Elementary.Pow(cos, k);
            far = Decibels.ToGain(lawDb) * Elementary.Pow(sin * Math.Sqrt(2), exponent);
        }

        return panPct > 0 ? (far, near) : (near, far);
    }

    /// <summary>Gains of the two sides of a stereo signal: a balance.</summary>
    public static (double Left, double Right) Stereo(double panPct) => Mono(panPct, 0);
}
