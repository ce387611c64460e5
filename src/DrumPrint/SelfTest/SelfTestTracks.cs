using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.WordLength;

namespace DrumPrint.SelfTest;

/// <summary>The raw tracks and impulses of the self-test: worked out from a seed, in every word length and rate that files come in.</summary>
internal static class SelfTestTracks
{
    private const int SampleRate = 48000;
    private const int OtherRate = 44100;
    private const double LengthS = 3;
    private const double DecibelsOfE = 8.685889638065037;

    /// <summary>Writes all of them.</summary>
    /// <param name="folder">The session's folder; <c>raw</c> and <c>ir</c> in it are there.</param>
    public static void Write(string folder)
    {
        var raw = Path.Combine(folder, "raw");
        Write(Path.Combine(raw, "01_Kick.wav"), SampleRate, SampleEncoding.Pcm24, [Hits("kick", SampleRate, 62, 30, 0.5, 0)]);
        Write(Path.Combine(raw, "02_Snare.wav"), SampleRate, SampleEncoding.Float32, [Hits("snare", SampleRate, 190, 55, 0.5, 0.25)]);
        Write(Path.Combine(raw, "03_RoomL.wav"), OtherRate, SampleEncoding.Pcm16, [Hits("room left", OtherRate, 120, 12, 0.25, 0.01)]);
        Write(Path.Combine(raw, "04_RoomR.wav"), OtherRate, SampleEncoding.Pcm24, [Hits("room right", OtherRate, 130, 12, 0.25, 0.012)]);
        Write(Path.Combine(raw, "05_Over.wav"), SampleRate, SampleEncoding.Pcm32, [Hits("over left", SampleRate, 420, 20, 0.25, 0.003), Hits("over right", SampleRate, 510, 20, 0.25, 0.004)]);
        Write(Path.Combine(raw, "06_Noise.wav"), SampleRate, SampleEncoding.Float64, [Noise("noise", SampleRate, 0.2)]);
        var impulses = Path.Combine(folder, "ir");
        Write(Path.Combine(impulses, "space.wav"), OtherRate, SampleEncoding.Float32, [Tail("space left", OtherRate, 0.4), Tail("space right", OtherRate, 0.4)]);
        Write(Path.Combine(impulses, "chamber.wav"), SampleRate, SampleEncoding.Pcm24, [Tail("LL", SampleRate, 0.9), Tail("LR", SampleRate, 0.9), Tail("RL", SampleRate, 0.9), Tail("RR", SampleRate, 0.9)]);
    }

    // A tone that falls in pitch under a burst of noise, on every beat.
    private static double[] Hits(string name, int rate, double freqHz, double decayDbPerTenth, double everyS, double firstS)
    {
        var noise = CounterNoise.FromName(name);
        var samples = new double[(int)(LengthS * rate)];
        for (var i = 0; i < samples.Length; i++)
        {
            var t = ((double)i / rate) - firstS;
            if (t < 0)
            {
                continue;
            }

            var hit = Math.Floor(t / everyS);
            var since = t - (hit * everyS);
            var level = 0.6 * (0.4 + (0.6 * noise.Unit(-1 - (long)hit)));
            var envelope = Elementary.Exp(-since * 10 * decayDbPerTenth / DecibelsOfE);
            var tone = Elementary.Sin(2 * Math.PI * freqHz * since * (1 + (0.5 * envelope)));
            samples[i] = level * ((0.7 * envelope * tone) + (0.3 * envelope * envelope * noise.Bipolar(i)));
        }

        return samples;
    }

    private static double[] Noise(string name, int rate, double level)
    {
        var noise = CounterNoise.FromName(name);
        return [.. Enumerable.Range(0, (int)(LengthS * rate)).Select(i => level * noise.Bipolar(i))];
    }

    // Noise that falls by 60 dB over its length.
    private static double[] Tail(string name, int rate, double lengthS)
    {
        var noise = CounterNoise.FromName(name);
        var frames = (int)(lengthS * rate);
        return [.. Enumerable.Range(0, frames).Select(i => 0.5 * noise.Bipolar(i) * Elementary.Exp(-60 / DecibelsOfE * i / frames))];
    }

    private static void Write(string path, int rate, SampleEncoding encoding, double[][] channels)
    {
        var frames = channels[0].Length;
        var block = new AudioBlock(channels, 0, frames);
        if (!encoding.IsFloat())
        {
            // A file of 32-bit whole numbers holds them on the 24-bit grid, as most converters fill it.
            new Quantizer(Math.Min(encoding.Bits(), 24), Dither.None, default, channels.Length).Process(block);
        }

        using var writer = WaveWriter.Create(path, new AudioFormat(rate, channels.Length), encoding, null, frames);
        writer.Write(block);
        writer.Finish(frames);
        writer.Publish();
    }
}
