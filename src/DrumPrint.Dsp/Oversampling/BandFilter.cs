using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Oversampling;

/// <summary>Designs the responses of the oversampler, at least 120 dB down in the stop band.</summary>
internal static class BandFilter
{
    /// <summary>End of the flat band as a part of the frame rate: 20 kHz at 44.1 kHz.</summary>
    public const double PassEdge = 20.0 / 44.1;

    // Kaiser's formulas are fits: this asks them for what they give.
    private const double LowPassAttenuationDb = 122;

    // Taps on each side of the middle, for each step up. The first response is the long one; the others get better than asked for
    // at little cost, so that many can follow one another.
    private static readonly int[] Terms = [41, 8, 5, 3];

    private static readonly Lazy<double[][]> HalfBands = new(() => [.. Terms.Select(HalfBandOf)]);

    private const int IntegrationSteps = 2048;

    /// <summary>Half-band response between a signal at 2 to the power of <paramref name="step"/> times the frame rate and one at
    /// twice its rate.</summary>
    /// <returns>An odd number of taps, symmetric; every other one is zero but the middle one, which is ½.</returns>
    public static double[] HalfBand(int step) => HalfBands.Value[step];

    /// <summary>Taps on each side of the middle of <see cref="LowPass"/>.</summary>
    public static int LowPassReach => KaiserWindow.Taps(LowPassAttenuationDb, (0.5 - PassEdge) / 2) / 2;

    /// <summary>Linear-phase low-pass at twice the frame rate that keeps the flat band and removes everything from half
    /// the frame rate up, so that nothing folds back when every other sample is dropped.</summary>
    /// <param name="middle">Delay in samples, at least <see cref="LowPassReach"/>; need not be whole.</param>
    /// <param name="gain">Gain to give the pass band at a frequency stated as a part of the frame rate; 1 at 0.</param>
    public static double[] LowPass(double middle, Func<double, double> gain)
    {
        var reach = LowPassReach + 1.0;
        var beta = KaiserWindow.Beta(LowPassAttenuationDb);
        var cutOff = (PassEdge + 0.5) / 2;
        var step = cutOff / IntegrationSteps;
        var weights = new double[IntegrationSteps + 1];
        for (var i = 0; i <= IntegrationSteps; i++)
        {
            // Simpson's rule.
            weights[i] = gain(i * step) * step / 3 * (i is 0 or IntegrationSteps ? 1 : (i & 1) == 1 ? 4 : 2);
        }

        var taps = new double[(int)Math.Floor(middle + reach) + 1];
        var sum = 0.0;
        for (var n = 0; n < taps.Length; n++)
        {
            var window = KaiserWindow.At((n - middle) / reach, beta);
            taps[n] = window == 0 ? 0 : window * CosineSum(weights, Math.PI * step * (n - middle));
            sum += taps[n];
        }

        for (var n = 0; n < taps.Length; n++)
        {
            taps[n] *= gain(0) / sum;
        }

        return taps;
    }

    // Σ weights[i] cos(i·angle), the cosines by their two-term recurrence.
    private static double CosineSum(double[] weights, double angle)
    {
        var cosine = Elementary.Cos(angle);
        var (previous, current) = (cosine, 1.0);
        var sum = 0.0;
        foreach (var weight in weights)
        {
            sum += weight * current;
            (previous, current) = (current, (2 * cosine * current) - previous);
        }

        return sum;
    }

    private static double[] HalfBandOf(int terms, int step)
    {
        // The first step must leave room between the band and its mirror; later ones have room to spare.
        var edge = (step == 0 ? PassEdge : 0.5) / (2 << step);
        var side = HalfBandDesign.Fit(terms, edge).Taps;
        var middle = (2 * terms) - 1;
        var taps = new double[(2 * middle) + 1];
        taps[middle] = 0.5;
        for (var i = 0; i < terms; i++)
        {
            taps[middle - 1 - (2 * i)] = side[i];
            taps[middle + 1 + (2 * i)] = side[i];
        }

        return taps;
    }
}
