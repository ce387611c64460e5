using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Spectral;

/// <summary>How long an impulse response takes to fall by 60 dB.</summary>
/// <remarks>Source: ISO 3382-1:2009, backward integration after Schroeder; T30, the least-squares line from −5 to −35 dB
/// made out to 60 dB. The curve starts where the response first comes within 20 dB of its peak. Channels add by energy.</remarks>
public static class DecayTime
{
    private const double TopDb = -5;
    private const double BottomDb = -35;
    private const double OnsetPower = 0.01;

    /// <summary>Decay time in seconds over the whole band; null when the response is silent or too short to tell.</summary>
    public static double? T30(IReadOnlyList<double[]> channels, int sampleRate)
    {
        ArgumentNullException.ThrowIfNull(channels);
        var energy = Energy(channels);
        var onset = Onset(energy);
        if (onset < 0)
        {
            return null;
        }

        for (var n = energy.Length - 2; n >= onset; n--)
        {
            energy[n] += energy[n + 1];
        }

        return Slope(energy.AsSpan(onset)) is { } perFrame and < 0 ? -60 / (perFrame * sampleRate) : null;
    }

    /// <summary>First frame within 20 dB of the peak; −1 for silence.</summary>
    public static int Onset(IReadOnlyList<double[]> channels)
    {
        ArgumentNullException.ThrowIfNull(channels);
        return Onset(Energy(channels));
    }

    private static double[] Energy(IReadOnlyList<double[]> channels)
    {
        var energy = new double[channels[0].Length];
        foreach (var channel in channels)
        {
            for (var n = 0; n < energy.Length; n++)
            {
                energy[n] += channel[n] * channel[n];
            }
        }

        return energy;
    }

    private static int Onset(double[] energy)
    {
        var peak = 0.0;
        foreach (var e in energy)
        {
            peak = Math.Max(peak, e);
        }

        return peak > 0 ? Array.FindIndex(energy, e => e >= peak * OnsetPower) : -1;
    }

    // Decibels per frame of the line through the curve between the two levels.
    private static double? Slope(ReadOnlySpan<double> curve)
    {
        var first = 0;
        while (first < curve.Length && LevelDb(curve, first) > TopDb)
        {
            first++;
        }

        var (count, sumT, sumTt, sumL, sumTl) = (0, 0.0, 0.0, 0.0, 0.0);
        for (var n = first; n < curve.Length && curve[n] > 0; n++)
        {
            var level = LevelDb(curve, n);
            if (level < BottomDb)
            {
                break;
            }

            double t = n - first;
            count++;
            sumT += t;
            sumTt += t * t;
            sumL += level;
            sumTl += t * level;
        }

        return count < 3 ? null : ((count * sumTl) - (sumT * sumL)) / ((count * sumTt) - (sumT * sumT));
    }

    private static double LevelDb(ReadOnlySpan<double> curve, int n) => 10 * Elementary.Log10(curve[n] / curve[0]);
}
