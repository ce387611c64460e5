using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Oversampling;

/// <summary>Designs the responses of the oversampler: windowed ideal responses, at least 120 dB down in the stop band.</summary>
internal static class BandFilter
{
    /// <summary>End of the flat band as a part of the frame rate: 20 kHz at 44.1 kHz.</summary>
    public const double PassEdge = 20.0 / 44.1;

    // More than asked for: Kaiser's formulas are fits, the looser the shorter the response. The short ones cost little.
    private const double LongAttenuationDb = 125;
    private const double ShortAttenuationDb = 145;

    private const int IntegrationSteps = 2048;

    /// <summary>Half-band response between a slower signal and one at twice its rate.</summary>
    /// <param name="edge">End of the band to keep, as a part of the faster rate, under ¼; what mirrors it at ¼ is removed.</param>
    /// <returns>An odd number of taps, symmetric; every other one is zero but the middle one, which is ½.</returns>
    public static double[] HalfBand(double edge)
    {
        var transition = 0.5 - (2 * edge);
        var attenuationDb = transition < 0.1 ? LongAttenuationDb : ShortAttenuationDb;
        var reach = 2 * ((KaiserWindow.Taps(attenuationDb, transition) + 4) / 4);
        var beta = KaiserWindow.Beta(attenuationDb);
        var taps = new double[(2 * reach) - 1];
        var sum = 0.0;
        for (var d = 1; d < reach; d += 2)
        {
            var ideal = ((d & 2) == 0 ? 1 : -1) / (Math.PI * d);
            var tap = ideal * KaiserWindow.At((double)d / reach, beta);
            taps[reach - 1 - d] = tap;
            taps[reach - 1 + d] = tap;
            sum += 2 * tap;
        }

        for (var n = 0; n < taps.Length; n++)
        {
            taps[n] *= 0.5 / sum;
        }

        taps[reach - 1] = 0.5;
        return taps;
    }

    /// <summary>Taps on each side of the middle of <see cref="LowPass"/>.</summary>
    public static int LowPassReach => KaiserWindow.Taps(LongAttenuationDb, (0.5 - PassEdge) / 2) / 2;

    /// <summary>Linear-phase low-pass at twice the frame rate that keeps the flat band and removes everything from half
    /// the frame rate up, so that nothing folds back when every other sample is dropped.</summary>
    /// <param name="middle">Delay in samples, at least <see cref="LowPassReach"/>; need not be whole.</param>
    /// <param name="gain">Gain to give the pass band at a frequency stated as a part of the frame rate; 1 at 0.</param>
    public static double[] LowPass(double middle, Func<double, double> gain)
    {
        var reach = LowPassReach + 1.0;
        var beta = KaiserWindow.Beta(LongAttenuationDb);
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
}
