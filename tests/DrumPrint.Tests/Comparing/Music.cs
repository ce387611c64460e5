using DrumPrint.Comparing.Measuring;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Comparing;

/// <summary>Invented playing, the same on every run.</summary>
internal static class Music
{
    /// <summary>Hits of decaying noise every so often.</summary>
    public static double[] Hits(double seconds, ulong seed = 1, double every = 0.25, double from = 0.1, double decayS = 0.05)
    {
        var noise = new CounterNoise(seed);
        return
        [
            .. Enumerable.Range(0, (int)(seconds * TestSession.Rate)).Select(n =>
            {
                var t = (n / (double)TestSession.Rate) - from;
                return t < 0 ? 0 : 0.4 * noise.Bipolar(n) * Math.Exp(-(t % every) / decayS);
            }),
        ];
    }

    public static double[] Noise(int frames, ulong seed, double level = 0.2)
    {
        var noise = new CounterNoise(seed);
        return [.. Enumerable.Range(0, frames).Select(n => level * noise.Bipolar(n))];
    }

    public static double[] Times(this double[] x, double gain) => [.. x.Select(s => s * gain)];

    public static double[] Plus(this double[] x, double[] y) => [.. x.Zip(y, (a, b) => a + b)];

    public static double[] Delayed(this double[] x, int frames) =>
        [.. Enumerable.Range(0, x.Length).Select(n => n - frames >= 0 && n - frames < x.Length ? x[n - frames] : 0)];

    /// <summary>A gentle low-pass of one pole: another sound at the same time.</summary>
    public static double[] Dulled(this double[] x, double share = 0.5)
    {
        var y = new double[x.Length];
        for (var n = 0; n < x.Length; n++)
        {
            y[n] = (share * x[n]) + ((1 - share) * (n > 0 ? y[n - 1] : 0));
        }

        return y;
    }

    public static Sound Sound(params double[][] channels) => new(TestSession.Rate, channels);

    public static double Gain(double decibels) => Math.Pow(10, decibels / 20);
}
