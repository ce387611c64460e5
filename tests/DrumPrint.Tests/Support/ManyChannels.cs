using System.Text;
using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Tests.Support;

/// <summary>Recordings of many channels, as field recorders write them.</summary>
internal static class ManyChannels
{
    /// <summary>Writes a 32-bit float file with one channel for each signal, and their names where there are any.</summary>
    /// <remarks>The list is written as iXML specification 3 has it: the recorder's input in one place, the place in the file in another.</remarks>
    public static void Write(string path, double[][] channels, string[] names, int rate = TestSession.Rate)
    {
        WaveChunk[] chunks = names.Length == 0 ? [] : [new WaveChunk("iXML", Encoding.UTF8.GetBytes(Names(names)))];
        using var writer = WaveWriter.Create(path, new AudioFormat(rate, channels.Length), SampleEncoding.Float32, null, channels[0].Length, chunks);
        writer.Write(new AudioBlock(channels, 0, channels[0].Length));
        writer.Finish(channels[0].Length);
        writer.Publish();
    }

    public static string Names(string[] names) =>
        $"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<BWFXML><IXML_VERSION>1.61</IXML_VERSION><TRACK_LIST><TRACK_COUNT>{names.Length}</TRACK_COUNT>"
        + string.Concat(names.Select((n, i) => $"<TRACK><CHANNEL_INDEX>{i + 9}</CHANNEL_INDEX><INTERLEAVE_INDEX>{i + 1}</INTERLEAVE_INDEX><NAME>{n}</NAME></TRACK>"))
        + "</TRACK_LIST></BWFXML>\0\0";
}
