using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Conformance;

/// <summary>Whole signals in and out of files.</summary>
internal static class SoundFiles
{
    public static void Write(string path, int sampleRate, SampleEncoding encoding, double[][] channels)
    {
        using var writer = WaveWriter.Create(path, new AudioFormat(sampleRate, channels.Length), encoding, null, channels[0].Length);
        writer.Write(new AudioBlock(channels, 0, channels[0].Length));
        writer.Finish(channels[0].Length);
        writer.Publish();
    }

    public static double[][] Read(string path)
    {
        using var reader = AudioReader.Open(path);
        var channels = new double[reader.Info.Channels][];
        for (var c = 0; c < channels.Length; c++)
        {
            channels[c] = new double[reader.Info.Frames];
        }

        reader.Read(new AudioBlock(channels, 0, (int)reader.Info.Frames));
        return channels;
    }
}
