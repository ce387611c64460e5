namespace DrumPrint.Demo.Synthesis;

/// <summary>Adds dry sounds at levels, and measures them.</summary>
internal static class Mix
{
    public static double[] Of(int frames, params ReadOnlySpan<(double[] Samples, double Level)> sounds)
    {
        var sum = new double[frames];
        foreach (var (samples, level) in sounds)
        {
            for (var n = 0; n < frames; n++)
            {
                sum[n] += level * samples[n];
            }
        }

        return sum;
    }

    public static double Peak(double[] samples)
    {
        var peak = 0.0;
        foreach (var sample in samples)
        {
            peak = Math.Max(peak, Math.Abs(sample));
        }

        return peak;
    }
}
