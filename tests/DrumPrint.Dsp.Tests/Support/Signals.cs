using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Test signals, the same on every run.</summary>
internal static class Signals
{
    public static double[] Silence(int frames) => new double[frames];

    public static double[] Impulse(int frames, int at = 0, double level = 1)
    {
        var x = new double[frames];
        x[at] = level;
        return x;
    }

    public static double[] Sine(int frames, double freqHz, double level = 1, double phase = 0, int sampleRate = Run.SampleRate) =>
        Enumerable.Range(0, frames).Select(n => level * Math.Sin((2 * Math.PI * freqHz * n / sampleRate) + phase)).ToArray();

    /// <summary>White noise, uniform from −level to level.</summary>
    public static double[] Noise(int frames, ulong seed = 1, double level = 1)
    {
        var noise = new CounterNoise(seed);
        return Enumerable.Range(0, frames).Select(n => level * noise.Bipolar(n)).ToArray();
    }

    /// <summary>Decaying noise bursts with silence between: something like hits. The same bits on every machine.</summary>
    public static double[] Hits(int frames, int every, double decayFrames, ulong seed = 1, double level = 1)
    {
        var noise = new CounterNoise(seed);
        return Enumerable.Range(0, frames).Select(n => level * noise.Bipolar(n) * Elementary.Exp(-(n % every) / decayFrames)).ToArray();
    }
}
