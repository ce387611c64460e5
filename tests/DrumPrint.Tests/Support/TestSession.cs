using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;

namespace DrumPrint.Tests.Support;

/// <summary>A session folder that is thrown away after the test.</summary>
internal sealed class TestSession : IDisposable
{
    public const int Rate = 48000;

    public TestSession() => Folder = Directory.CreateTempSubdirectory("drumprint-test-").FullName;

    public string Folder { get; }

    public string Prints => Path.Combine(Folder, "prints");

    /// <summary>Writes a 64-bit float track, one array for each channel.</summary>
    public void Track(string file, params double[][] channels) => Track(file, Rate, channels);

    public void Track(string file, int rate, params double[][] channels)
    {
        var path = Path.Combine(Folder, file);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        using var writer = WaveWriter.Create(path, new AudioFormat(rate, channels.Length), SampleEncoding.Float64, null, channels[0].Length);
        writer.Write(new AudioBlock(channels, 0, channels[0].Length));
        writer.Finish(channels[0].Length);
        writer.Publish();
    }

    /// <summary>A chain with the usual head; <paramref name="body"/> gives the rest.</summary>
    public Chain Chain(string body, string song = "") => ChainReader.Parse(Text(body, song), Path.Combine(Folder, "test.chain.json"));

    /// <summary>The same, out of a file.</summary>
    public Chain ChainFile(string body, string song = "")
    {
        var path = Path.Combine(Folder, "test.chain.json");
        File.WriteAllText(path, Text(body, song));
        return ChainReader.Read(path);
    }

    private string Text(string body, string song)
    {
        return $$"""
            { "chain": 1,
              "song": { "title": "Test", "code": "Test", "rate_hz": {{Rate.ToString(CultureInfo.InvariantCulture)}}{{(song.Length == 0 ? "" : ", " + song)}} },
              {{body}} }
            """;
    }

    public PrintReport Print(Chain chain, PrintOptions? options = null) => SessionPrinter.Print(chain, options ?? new PrintOptions());

    /// <summary>The samples of a print.</summary>
    public double[][] Read(string file) => ReadFile(Path.Combine(Prints, file));

    public static double[][] ReadFile(string path)
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

    public string[] Files(string folder = "prints") =>
        Directory.Exists(Path.Combine(Folder, folder))
            ? [.. Directory.GetFiles(Path.Combine(Folder, folder)).Select(Path.GetFileName).Order(StringComparer.Ordinal)!]
            : [];

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
