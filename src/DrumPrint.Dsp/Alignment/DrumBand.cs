using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Alignment;

/// <summary>How much each frequency counts. A frequency counts where the drum's hits stand out in its close microphone. They
/// must stand out from what was there just before, and from everything else that is hit.</summary>
/// <remarks>A cymbal on every beat is as constant as the drum and wider in band. This weight keeps the cymbal's delay from
/// being taken for the drum's.</remarks>
internal static class DrumBand
{
    private const double LowestHz = 100;
    private const double HighestHz = 20000;
    private const double HighestPart = 0.42; // of the rate
    private const double FallingPart = 0.2; // of the highest frequency, over which weights fall
    private const double FullDb = 9; // a hit that stands out by this counts in full
    private const double LoudOthers = 0.75; // quantile of the other hits that the drum has to stand out from

    /// <summary>Weights of all bins, 0 to 1.</summary>
    /// <param name="own">Hits of the drum.</param>
    /// <param name="before">What was there before each.</param>
    /// <param name="others">Other hits that the microphone hears; may be none.</param>
    /// <param name="hzPerBin">Distance of two bins.</param>
    /// <param name="rateHz">Frames in a second.</param>
    public static double[] Weights(HitSpectrum[] own, HitSpectrum[] before, HitSpectrum[] others, double hzPerBin, int rateHz)
    {
        var (signal, floor, rivals) = (Mean(own), Mean(before), Quantile(others));
        var weights = new double[signal.Length];
        var top = Math.Min(HighestHz, HighestPart * rateHz);
        for (var k = 0; k < weights.Length; k++)
        {
            var hz = k * hzPerBin;
            var against = Math.Max(floor[k], rivals?[k] ?? 0);
            if (hz <= LowestHz || hz >= top || signal[k] <= against)
            {
                continue;
            }

            var edge = Math.Min(Math.Min(1, (hz - LowestHz) / LowestHz), (top - hz) / (FallingPart * top));
            var clearDb = against > 0 ? Decibels.FromGain(Math.Sqrt(signal[k] / against)) : FullDb;
            weights[k] = edge * Math.Min(1, clearDb / FullDb);
        }

        return weights;
    }

    private static double[] Mean(HitSpectrum[] spectra)
    {
        var sum = new double[spectra[0].Re.Length];
        foreach (var power in spectra.Select(s => s.SmoothPower()))
        {
            for (var k = 0; k < sum.Length; k++)
            {
                sum[k] += power[k] / spectra.Length;
            }
        }

        return sum;
    }

    private static double[]? Quantile(HitSpectrum[] spectra)
    {
        if (spectra.Length == 0)
        {
            return null;
        }

        var powers = spectra.Select(s => s.SmoothPower()).ToArray();
        var result = new double[powers[0].Length];
        var column = new double[powers.Length];
        for (var k = 0; k < result.Length; k++)
        {
            for (var i = 0; i < column.Length; i++)
            {
                column[i] = powers[i][k];
            }

            Array.Sort(column);
            result[k] = column[(int)((column.Length - 1) * LoudOthers)];
        }

        return result;
    }
}
