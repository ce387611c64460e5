using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Tests.Audio;

/// <summary>Whole signals, channel by channel, in and out of files.</summary>
internal static class Planar
{
    public static readonly SampleEncoding[] Encodings = Enum.GetValues<SampleEncoding>();

    /// <summary>Reads a whole file, block by block.</summary>
    public static double[][] Read(AudioReader reader, int blockFrames = 480)
    {
        var signal = Silence(reader.Info.Channels, (int)reader.Info.Frames);
        for (var at = 0; at < reader.Info.Frames; at += blockFrames)
        {
            var frames = (int)Math.Min(blockFrames, reader.Info.Frames - at);
            Assert.Equal(frames, reader.Read(new AudioBlock(signal, at, frames)));
        }

        return signal;
    }

    public static double[][] Read(string path)
    {
        using var reader = AudioReader.Open(path);
        return Read(reader);
    }

    public static void Write(WaveWriter writer, double[][] signal, int blockFrames = 480)
    {
        for (var at = 0; at < signal[0].Length; at += blockFrames)
        {
            writer.Write(new AudioBlock(signal, at, Math.Min(blockFrames, signal[0].Length - at)));
        }
    }

    public static void Write(string path, double[][] signal, SampleEncoding encoding, BroadcastExtension? broadcast = null, int sampleRate = 48000)
    {
        using var writer = WaveWriter.Create(path, new AudioFormat(sampleRate, signal.Length), encoding, broadcast, signal[0].Length);
        Write(writer, signal);
        writer.Finish(signal[0].Length);
        writer.Publish();
    }

    public static double[][] Silence(int channels, int frames) => [.. Enumerable.Range(0, channels).Select(_ => new double[frames])];

    /// <summary>Noise on an encoding's grid that includes both ends of its range.</summary>
    public static double[][] Noise(SampleEncoding encoding, int channels, int frames)
    {
        var signal = Silence(channels, frames);
        var step = Step(encoding);
        for (var c = 0; c < channels; c++)
        {
            var noise = new CounterNoise((ulong)c);
            for (var n = 0; n < frames; n++)
            {
                signal[c][n] = OnGrid(noise.Bipolar(n), encoding, step);
            }

            if (frames > 1)
            {
                signal[c][0] = -1;
                signal[c][1] = encoding.IsFloat() ? 1.25 : 1 - step;
            }
        }

        return signal;
    }

    public static double Step(SampleEncoding encoding) => 2 / (double)(1L << encoding.Bits());

    /// <summary>Compares to the bit. (xunit's own comparison takes seconds for long signals.)</summary>
    public static void AssertSame(double[][] expected, double[][] actual)
    {
        Assert.Equal(expected.Select(c => c.Length), actual.Select(c => c.Length));
        for (var c = 0; c < expected.Length; c++)
        {
            var same = expected[c].AsSpan().CommonPrefixLength(actual[c]);
            Assert.True(same == expected[c].Length, $"Channel {c} differs from frame {same} of {expected[c].Length} on.");
        }
    }

    private static double OnGrid(double value, SampleEncoding encoding, double step) => encoding switch
    {
        SampleEncoding.Float64 => value,
        SampleEncoding.Float32 => (float)value,
        _ => Math.Floor(value / step) * step,
    };
}
