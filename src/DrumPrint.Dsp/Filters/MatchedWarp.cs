namespace DrumPrint.Dsp.Filters;

/// <summary>
/// Stands for the squared analog frequency Ω² in a digital filter. It is a rational function of φ = sin²(ω/2) that
/// follows ω² up to 20 kHz. The bilinear transform has tan²(ω/2) there, which runs off to infinity at half the sample
/// rate.
/// </summary>
/// <remarks>
/// W(φ) = φ (1 + b φ) / (1 + c φ + d φ²), up to a factor. The factor cancels, because every design is scaled to be exact
/// at its own corner. W rises all the way from φ = 0 to 1. Neither 1 + b φ nor the denominator has a zero there. So a
/// power response in W is a power response in φ. A stable filter can always be split off.
/// </remarks>
internal sealed class MatchedWarp
{
    private const int GridPoints = 32;

    /// <summary>Follows ω² to 0.32 %.</summary>
    private static readonly MatchedWarp To20KilohertzAt44100 = new(-0.8508612903374709, -1.214159916563184, 0.2808181346526076);

    /// <summary>Follows ω² to 0.11 %.</summary>
    private static readonly MatchedWarp To20KilohertzAt48000 = new(-0.7798886618402274, -1.1270977651948577, 0.2296319243401097);

    /// <summary>Follows ω² to 0.0003 %.</summary>
    private static readonly MatchedWarp To20KilohertzAt88200 = new(-0.5621074591657625, -0.895616940644519, 0.12239539420600183);

    public MatchedWarp(double b, double c, double d) => (B, C, D) = (b, c, d);

    public double B { get; }

    public double C { get; }

    public double D { get; }

    /// <summary>Whether W is positive and rises over the whole range, as a stable filter needs.</summary>
    public bool IsSound
    {
        get
        {
            var last = 0.0;
            for (var i = 1; i <= GridPoints; i++)
            {
                var phi = (double)i / GridPoints;
                var w = At(phi);
                if (!(1 + (B * phi) > 0 && 1 + (C * phi) + (D * phi * phi) > 0 && w > last))
                {
                    return false;
                }

                last = w;
            }

            return true;
        }
    }

    /// <summary>The minimax fit, in relative error of ω², from 0 to 20 kHz at the lowest rate of each group (found with
    /// the Remez exchange). Below 44.1 kHz it reaches as far in parts of the rate.</summary>
    public static MatchedWarp For(int sampleRate) =>
        sampleRate >= 88200 ? To20KilohertzAt88200 : sampleRate >= 48000 ? To20KilohertzAt48000 : To20KilohertzAt44100;

    public double At(double phi) => phi * (1 + (B * phi)) / (1 + (C * phi) + (D * phi * phi));

    /// <summary>The two roots δ = z − 1, inside the unit circle, that an analog root turns into.</summary>
    /// <param name="root">The analog root, corner at 1.</param>
    /// <param name="corner">W at the corner.</param>
    /// <returns>First the one that goes to 0 with the corner.</returns>
    public (ComplexValue Main, ComplexValue Extra) Roots(ComplexValue root, double corner)
    {
        // W(φ)/corner = −root² is a quadratic in u = 1/φ: q u² + (1 + c q) u + (b + d q) = 0.
        var q = root * root * corner;
        var middle = 1 + (q * C);
        var last = B + (q * D);
        var discriminant = ((middle * middle) - (4 * q * last)).SquareRoot();
        var sum = middle + discriminant;
        var difference = middle - discriminant;
        var t = (sum.Power >= difference.Power ? -sum : -difference) * 0.5;
        return (q.Power == 0 ? 0 : FromInverse(t / q), FromInverse(last / t));
    }

    /// <summary>The two roots that a zero at infinite analog frequency turns into, a complex pair or both real.</summary>
    public (ComplexValue Near, ComplexValue Far) RootsOfInfinity()
    {
        var root = new ComplexValue((C * C) - (4 * D), 0).SquareRoot();
        return (FromInverse((root - C) * 0.5), FromInverse((-root - C) * 0.5));
    }

    // φ = −δ²/(4 (1 + δ)) solved for δ, in u = 1/φ; the root with |1 + δ| below 1.
    private static ComplexValue FromInverse(ComplexValue u) => (ComplexValue)(-2) / (1 + (1 - u).SquareRoot());
}
