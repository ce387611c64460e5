using DrumPrint.Dsp.Saturation;

namespace DrumPrint.Conformance.Checks;

/// <summary>The third cycle of a medium driven by a sine of field, in A/m.</summary>
internal sealed record MagneticLoop(double[] Field, double[] Magnetisation)
{
    private const double Saturation = 350e3;
    private const double Shape = 22e3;
    private const double Coupling = 1.6e-3;
    private const double Pinning = 27e3;
    private const double Reversible = 0.17;
    private const int MediumSteps = 512;
    private const int IntegrationSteps = 20000;

    /// <summary>What a cycle loses: ∮ H dM.</summary>
    public double Area => Enumerable.Range(0, Field.Length).Sum(i =>
    {
        var next = (i + 1) % Field.Length;
        return (Magnetisation[next] + Magnetisation[i]) / 2 * (Field[i] - Field[next]);
    });

    public double Peak => Magnetisation.Max();

    /// <summary>What is left at no field on the way down.</summary>
    public double Remanence => Crossing(Field, Magnetisation);

    /// <summary>The field against it at which nothing is left.</summary>
    public double Coercivity => -Crossing(Magnetisation, Field);

    /// <summary>The project's own solver; the effective field H + αM takes the last magnetisation, extrapolated.</summary>
    public static MagneticLoop OfTheMedium(double peakField)
    {
        var medium = new Hysteresis(Pinning / Shape, Reversible, 0);
        var (last, before) = (0.0, 0.0);
        return Third(MediumSteps, n =>
        {
            var h = peakField * Math.Sin(2 * Math.PI * n / MediumSteps);
            var effective = (h + (Coupling * ((2 * last) - before))) / Shape;
            (last, before) = (Saturation * medium.Next(effective), last);
            return (h, last);
        });
    }

    /// <summary>The published differential equation by fourth-order Runge-Kutta in small steps.</summary>
    public static MagneticLoop Integrated(double peakField)
    {
        var m = 0.0;
        double At(double n) => peakField * Math.Sin(2 * Math.PI * n / IntegrationSteps);
        return Third(IntegrationSteps, n =>
        {
            var (h0, h1, h2) = (At(n - 1), At(n - 0.5), At(n));
            var (step, sign) = (h2 - h0, Math.Sign(h2 - h0));
            var k1 = Slope(h0, m, sign);
            var k2 = Slope(h1, m + (step / 2 * k1), sign);
            var k3 = Slope(h1, m + (step / 2 * k2), sign);
            var k4 = Slope(h2, m + (step * k3), sign);
            m += step / 6 * (k1 + (2 * k2) + (2 * k3) + k4);
            return (h2, m);
        });
    }

    // dM/dH.
    private static double Slope(double h, double m, int sign)
    {
        var q = (h + (Coupling * m)) / Shape;
        var gap = (Saturation * LangevinOf(q)) - m;
        var turn = Reversible * Saturation / Shape * LangevinSlope(q);
        var pinned = sign * gap > 0 ? (1 - Reversible) * gap / (((1 - Reversible) * sign * Pinning) - (Coupling * gap)) : 0;
        return (pinned + turn) / (1 - (Coupling * turn));
    }

    private static double LangevinOf(double q) => Math.Abs(q) < 1e-3 ? q / 3 : (1 / Math.Tanh(q)) - (1 / q);

    private static double LangevinSlope(double q) => Math.Abs(q) < 1e-3 ? 1.0 / 3 : (1 / (q * q)) - (1 / (Math.Sinh(q) * Math.Sinh(q)));

    private static MagneticLoop Third(int steps, Func<int, (double Field, double Magnetisation)> next)
    {
        var points = Enumerable.Range(1, 3 * steps).Select(next).ToArray()[^steps..];
        return new MagneticLoop([.. points.Select(p => p.Field)], [.. points.Select(p => p.Magnetisation)]);
    }

    /// <summary>Value of <paramref name="y"/> where <paramref name="x"/> falls through zero, by a straight line.</summary>
    private static double Crossing(double[] x, double[] y)
    {
        var i = Enumerable.Range(x.Length / 8, x.Length / 2).First(n => x[n] >= 0 && x[n + 1] < 0);
        return y[i] + ((y[i + 1] - y[i]) * x[i] / (x[i] - x[i + 1]));
    }
}
