using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Filters;

/// <summary>Taps that read a signal between its samples: a sinc under a Kaiser window.</summary>
internal static class SincKernel
{
    /// <summary>Half the number of taps that a kernel needs.</summary>
    /// <param name="attenuationDb">How exact it is.</param>
    /// <param name="transition">Width, in parts of the sample rate and centred on half of it, of the band left inexact.</param>
    public static int Half(double attenuationDb, double transition) => (KaiserWindow.Taps(attenuationDb, transition) + 1) / 2;

    /// <summary>Taps 0 … 2·half − 1 around a centre that lies between half − 1 and half and is no whole number.</summary>
    public static double[] Taps(double centre, int half, double attenuationDb)
    {
        var taps = new double[2 * half];
        Fill(taps, centre, attenuationDb);
        return taps;
    }

    /// <summary>The same into memory that is there.</summary>
    public static void Fill(Span<double> taps, double centre, double attenuationDb)
    {
        var beta = KaiserWindow.Beta(attenuationDb);
        var half = taps.Length / 2;
        var sum = 0.0;
        for (var i = 0; i < taps.Length; i++)
        {
            var x = i - centre;
            taps[i] = Elementary.Sin(Math.PI * x) / (Math.PI * x) * KaiserWindow.At(x / half, beta);
            sum += taps[i];
        }

        foreach (ref var tap in taps)
        {
            tap /= sum;
        }
    }
}
