using DrumPrint.Audio;
using DrumPrint.Demo.Playing;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.WordLength;

namespace DrumPrint.Demo.Spaces;

/// <summary>Writes an impulse response as a 24-bit file.</summary>
internal static class ImpulseWriter
{
    public static string Write(string path, double[][] channels)
    {
        var frames = channels[0].Length;
        var block = new AudioBlock(channels, 0, frames);
        new Quantizer(24, Dither.None, default, channels.Length).Process(block);
        using var writer = WaveWriter.Create(path, new AudioFormat(SongForm.SampleRate, channels.Length), SampleEncoding.Pcm24, null, frames);
        writer.Write(block);
        writer.Finish(frames);
        writer.Publish();
        return path;
    }
}
