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
        var block = Rounded(channels);
        using var writer = WaveWriter.Create(path, new AudioFormat(SongForm.SampleRate, channels.Length), SampleEncoding.Pcm24, null, frames);
        writer.Write(block);
        writer.Finish(frames);
        writer.Publish();
        return path;
    }

    /// <summary>Whether an impulse may take this name: nothing is there, or the same samples.</summary>
    /// <remarks>Impulse files do not name their maker.</remarks>
    public static bool MayReplace(string path, double[][] channels)
    {
        if (!File.Exists(path))
        {
            return true;
        }

        try
        {
            using var reader = AudioReader.Open(path);
            var expected = Rounded(channels);
            if (reader.Info.Channels != expected.Channels || reader.Info.Frames != expected.Frames)
            {
                return false;
            }

            var found = Array.ConvertAll(channels, c => new double[c.Length]);
            reader.Read(new AudioBlock(found, 0, expected.Frames));
            return found.Zip(channels).All(p => p.First.AsSpan().SequenceEqual(p.Second));
        }
        catch (AudioFileException)
        {
            return false;
        }
    }

    private static AudioBlock Rounded(double[][] channels)
    {
        var block = new AudioBlock(channels, 0, channels[0].Length);
        new Quantizer(24, Dither.None, default, channels.Length).Process(block);
        return block;
    }
}
