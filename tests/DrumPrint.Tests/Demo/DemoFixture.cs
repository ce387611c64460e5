using DrumPrint.Audio;
using DrumPrint.Demo;
using DrumPrint.Demo.Playing;
using DrumPrint.Dsp;

namespace DrumPrint.Tests.Demo;

/// <summary>The short cut of the demo session, for all tests that listen to it.</summary>
public sealed class DemoFixture : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("drumprint-");
    private readonly Dictionary<int, double[]> _tracks = [];

    public DemoFixture() => Files = WrittenDemo.CopyTo(_folder.FullName);

    public DemoFiles Files { get; }

    internal IReadOnlyList<PlayedHit> Hits { get; } = Score.Of(SongForm.Cut);

    /// <summary>A raw track by its number, from 1.</summary>
    public double[] Track(int number)
    {
        lock (_tracks)
        {
            if (!_tracks.TryGetValue(number, out var samples))
            {
                samples = Channels(Files.Tracks[number - 1])[0];
                _tracks.Add(number, samples);
            }

            return samples;
        }
    }

    public static double[][] Channels(string path)
    {
        using var reader = AudioReader.Open(path);
        var channels = new double[reader.Info.Channels][];
        for (var c = 0; c < channels.Length; c++)
        {
            channels[c] = new double[reader.Info.Frames];
        }

        Assert.Equal(reader.Info.Frames, reader.Read(new AudioBlock(channels, 0, channels[0].Length)));
        return channels;
    }

    /// <summary>Hits of a stroke at near full level.</summary>
    internal long[] Onsets(Stroke stroke) => [.. Hits.Where(h => h.Stroke == stroke && h.LevelDb > -6 && h.Frame > 2000).Select(h => h.Frame)];

    /// <summary>Hits of a stroke with nothing else on the kit near them.</summary>
    internal PlayedHit[] Alone(Stroke stroke, int frames) =>
    [
        .. Hits.Where(h => h.Stroke == stroke && h.Frame > 2000 && !Hits.Any(o => o.Stroke is not (Stroke.Cabasa or Stroke.Claps)
            && o != h && Math.Abs(o.Frame - h.Frame) < frames)),
    ];

    public void Dispose() => _folder.Delete(recursive: true);
}
