using DrumPrint.Audio;
using DrumPrint.Demo.Playing;
using DrumPrint.Dsp;
using DrumPrint.Dsp.WordLength;
using DrumPrint.Files;

namespace DrumPrint.Demo.Spaces;

/// <summary>Writes an impulse response as a 24-bit file.</summary>
internal static class ImpulseWriter
{
    public static string Write(string path, double[][] channels)
    {
        using var writer = Finished(path, channels, FileSteps.Plain);
        writer.Publish();
        return path;
    }

    /// <summary>The whole file, still under its temporary name.</summary>
    public static WaveWriter Finished(string path, double[][] channels, FileSteps steps)
    {
        var frames = channels[0].Length;
        var block = Rounded(channels);
        var writer = WaveWriter.Create(steps, path, new AudioFormat(SongForm.SampleRate, channels.Length), SampleEncoding.Pcm24, null, frames);
        try
        {
            writer.Write(block);
            writer.Finish(frames);
            return writer;
        }
        catch
        {
            writer.Dispose();
            throw;
        }
    }

    private static AudioBlock Rounded(double[][] channels)
    {
        var block = new AudioBlock(channels, 0, channels[0].Length);
        new Quantizer(24, Dither.None, default, channels.Length).Process(block);
        return block;
    }
}
