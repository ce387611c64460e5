namespace DrumPrint.Dsp.Tests.Support;

/// <summary>A smooth decoupled detector whose times move, worked out plainly on levels that stand between the samples: an oracle.</summary>
internal static class MovingDetector
{
    private const int Points = 4;

    /// <summary>Reductions in dB, a frame each, for direct current in steps, by the crest factor's times.</summary>
    /// <param name="input">The signal.</param>
    /// <param name="attackMs">Longest attack.</param>
    /// <param name="releaseMs">Longest release.</param>
    /// <param name="thresholdDb">Threshold of a corner.</param>
    /// <param name="ratio">Ratio.</param>
    public static double[] ByCrest(double[] input, double attackMs, double releaseMs, double thresholdDb, double ratio)
    {
        var alpha = Math.Exp(-1 / (0.2 * 48000));
        var (peak, mean, held, reduction) = (0.0, 0.0, 0.0, 0.0);
        var reductions = new double[input.Length];
        for (var n = 0; n < input.Length; n++)
        {
            var power = input[n] * input[n];
            peak = Math.Max(power, (alpha * peak) + ((1 - alpha) * power));
            mean = (alpha * mean) + ((1 - alpha) * power);
            var crest = peak / mean;
            var attack = 2 * attackMs / crest;
            var release = (2 * releaseMs / crest) - attack;
            double Keep(double ms) => ms <= 0 ? 0 : Math.Exp(-1 / (ms * 48 * Points));
            var asked = Math.Max(0, (10 * Math.Log10(power)) - thresholdDb) * (1 - (1 / ratio));
            for (var point = 0; point < Points; point++)
            {
                held = Math.Max(asked, (Keep(release) * held) + ((1 - Keep(release)) * asked));
                reduction = (Keep(attack) * reduction) + ((1 - Keep(attack)) * held);
            }

            reductions[n] = reduction;
        }

        return reductions;
    }
}
