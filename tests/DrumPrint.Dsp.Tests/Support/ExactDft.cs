namespace DrumPrint.Dsp.Tests.Support;

/// <summary>The discrete Fourier transform by its definition in numbers of twice the length of a double (about 32 digits).</summary>
/// <remarks>Double-double sums and products after Dekker (1971) and Knuth; sine and cosine by their Taylor series on exact
/// fractions of the circle.</remarks>
internal static class ExactDft
{
    public static (double[] Re, double[] Im) Of(double[] re, double[] im)
    {
        var roots = Roots(re.Length);
        var bins = Enumerable.Range(0, re.Length).Select(k => Bin(re, im, k, roots)).ToArray();
        return ([.. bins.Select(b => b.Re)], [.. bins.Select(b => b.Im)]);
    }

    /// <summary>One bin.</summary>
    public static (double Re, double Im) Bin(double[] re, double[] im, int k) => Bin(re, im, k, Roots(re.Length));

    /// <summary>Cosine and sine of 2π·k/length, each as the nearest double.</summary>
    public static (double Cos, double Sin) RootOf(int k, int length)
    {
        var (cos, sin) = Root(k, length);
        return (cos.High, sin.High);
    }

    private static (Wide Cos, Wide Sin)[] Roots(int length) => [.. Enumerable.Range(0, length).Select(k => Root(k, length))];

    private static (double Re, double Im) Bin(double[] re, double[] im, int k, (Wide Cos, Wide Sin)[] roots)
    {
        Wide sumRe = default;
        Wide sumIm = default;
        for (var n = 0; n < re.Length; n++)
        {
            var (cos, sin) = roots[(long)k * n % re.Length];
            sumRe += (cos * re[n]) + (sin * im[n]);
            sumIm += (cos * im[n]) + (sin * -re[n]);
        }

        return (sumRe.High, sumIm.High);
    }

    // Taylor series of an angle brought within ±π/4 of a quarter of the circle.
    private static (Wide Cos, Wide Sin) Root(long k, long length)
    {
        var quarter = ((8 * k) + length) / (2 * length);
        var numerator = (4 * k) - (quarter * length);
        var angle = new Wide(1.5707963267948966, 6.123233995736766e-17) * numerator / length;
        var square = angle * angle;
        Wide cos = new(1, 0);
        var sin = angle;
        Wide cosTerm = new(1, 0);
        var sinTerm = angle;
        for (var n = 1; n < 16; n++)
        {
            cosTerm = cosTerm * square / -((2.0 * n) - 1) / (2.0 * n);
            sinTerm = sinTerm * square / -(2.0 * n) / ((2.0 * n) + 1);
            cos += cosTerm;
            sin += sinTerm;
        }

        return (quarter & 3) switch
        {
            0 => (cos, sin),
            1 => (sin * -1, cos),
            2 => (cos * -1, sin * -1),
            _ => (sin, cos * -1),
        };
    }

    private readonly record struct Wide(double High, double Low)
    {
        public static Wide operator +(Wide a, Wide b)
        {
            var sum = a.High + b.High;
            var part = sum - a.High;
            var error = a.High - (sum - part) + (b.High - part);
            return Tidy(sum, error + a.Low + b.Low);
        }

        public static Wide operator *(Wide a, Wide b)
        {
            var product = a.High * b.High;
            return Tidy(product, Math.FusedMultiplyAdd(a.High, b.High, -product) + (a.High * b.Low) + (a.Low * b.High));
        }

        public static Wide operator *(Wide a, double b) => a * new Wide(b, 0);

        public static Wide operator /(Wide a, double b)
        {
            var first = a.High / b;
            var product = new Wide(first, 0) * b;
            var rest = a + (product * -1);
            return Tidy(first, rest.High / b);
        }

        private static Wide Tidy(double high, double low)
        {
            var sum = high + low;
            return new Wide(sum, low - (sum - high));
        }
    }
}
