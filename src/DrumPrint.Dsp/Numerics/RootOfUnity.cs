namespace DrumPrint.Dsp.Numerics;

/// <summary>Points of the unit circle, correct to about half a unit in the last place.</summary>
internal static class RootOfUnity
{
    private const double TwoPiHigh = 6.283185307179586;
    private const double TwoPiLow = 2.4492935982947064e-16;

    /// <summary>Cosine and sine of 2π·<paramref name="numerator"/>/<paramref name="denominator"/>.</summary>
    /// <remarks>The whole numbers are brought into the first eighth of the circle before any rounding. So points that
    /// mirror each other are equal to the bit, and the multiples of an eighth are exact.</remarks>
    public static (double Cos, double Sin) At(long numerator, long denominator)
    {
        var k = numerator % denominator;
        k = k < 0 ? k + denominator : k;
        var below = 2 * k > denominator;
        k = below ? denominator - k : k;
        var left = 4 * k > denominator;
        var (n, d) = left ? (denominator - (2 * k), 2 * denominator) : (k, denominator);
        var swap = 8 * n > d;
        (n, d) = swap ? (d - (4 * n), 4 * d) : (n, d);

        var (cos, sin) = FirstEighth(n, d);
        (cos, sin) = swap ? (sin, cos) : (cos, sin);
        return (left ? -cos : cos, below ? -sin : sin);
    }

    private static (double Cos, double Sin) FirstEighth(double n, double d)
    {
        if (8 * n == d)
        {
            return (0.7071067811865476, 0.7071067811865476);
        }

        // The angle as a rounded value and what the rounding left out.
        var product = TwoPiHigh * n;
        var angle = product / d;
        var rest = (Math.FusedMultiplyAdd(-angle, d, product) + Math.FusedMultiplyAdd(TwoPiHigh, n, -product) + (TwoPiLow * n)) / d;
        var (sin, cos) = Elementary.SinCos(angle);
        return (Math.FusedMultiplyAdd(-rest, sin, cos), Math.FusedMultiplyAdd(rest, cos, sin));
    }
}
