using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Tests.Support;

/// <summary>Test signals, the same on every run.</summary>
internal static class Signals
{
    public static double[] Impulse(int frames, int at, double level = 0.5)
    {
        var x = new double[frames];
        x[at] = level;
        return x;
    }

    public static double[] Sine(int frames, double freqHz, double level) =>
        [.. Enumerable.Range(0, frames).Select(n => level * Math.Sin(2 * Math.PI * freqHz * n / TestSession.Rate))];

    /// <summary>Hits of decaying noise.</summary>
    public static double[] Hits(int frames, ulong seed, double level = 0.4)
    {
        var noise = new CounterNoise(seed);
        return [.. Enumerable.Range(0, frames).Select(n => level * noise.Bipolar(n) * Math.Exp(-(n % 12000) / 1500.0))];
    }

    /// <summary>Frame of the largest magnitude.</summary>
    public static int PeakAt(double[] x) => Array.IndexOf(x, x.MaxBy(Math.Abs));
}
