using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains.Reading;
using DrumPrint.Comparing;
using DrumPrint.Comparing.Album;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Printing;
using DrumPrint.Session;

namespace DrumPrint.Page.Tests;

/// <summary>An invented session of fourteen seconds, its comparisons and their pages. All but one hold six seconds: they open sooner.</summary>
internal sealed class PageSession : IDisposable
{
    public const int Rate = 48000;

    private const string Chain = """
        { "chain": 1,
          "song": { "title": "Harbour Lights", "code": "Harbour", "rate_hz": 48000, "tempo": "tempo.json" },
          "tracks": { "low drum": "raw/low.wav", "high drum": "raw/high.wav", "room": "raw/room.wav" },
          "buses": {
            "low":    { "from": { "low drum": -3 } },
            "high":   { "from": { "high drum": -5 } },
            "space":  { "from": { "room": -9 }, "through": [ { "compress": { "threshold_db": -34, "ratio": 4, "release_ms": 90 } } ] },
            "impact": { "from": { "low": -3, "high": -4 }, "through": [
              { "eq": { "bands": [ { "low_shelf": { "freq_hz": 90, "gain_db": 5 } } ] } },
              { "compress": { "threshold_db": -34, "ratio": 10, "attack_ms": 3, "release_ms": 70, "make_up_db": 9 } } ] } },
          "prints": [
            { "number": 1, "name": "Low", "bus": "low", "level_db": -3 }, { "number": 2, "name": "High", "bus": "high", "level_db": -3 },
            { "number": 3, "name": "Space", "bus": "space", "level_db": -3 }, { "number": 4, "name": "Impact", "bus": "impact", "level_db": -6 } ],
          "drum_bus": { "through": [ { "compress": { "threshold_db": -18, "ratio": 2 } } ] } }
        """;

    private static readonly ComparisonOptions Short = new() { From = _ => 4, To = _ => 10, ForPage = true };

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("drumprint-page-");

    public PageSession()
    {
        WriteRaw();
        File.WriteAllText(Path("harbour.chain.json"), Chain);
        File.WriteAllText(Path("tempo.json"), """{ "tempo_map": 1, "bars": [ { "from_bar": 9, "metre": "4/4", "bpm": 120 } ], "last_bar": 15 }""");
        Report = Comparer.Compare(Path("harbour.chain.json"), null, Short with { Without = "impact" });
        ComparisonPage.Write(ImpactPage, Report);
        SameReport = Comparer.Compare(Path("raw/room.wav"), Path("raw/room.wav"), new ComparisonOptions { ForPage = true });
        ComparisonPage.Write(SamePage, SameReport);
        ComparisonPage.Write(MonoPage, Comparer.Compare(Path("raw/low.wav"), Path("raw/high.wav"), Short));
        ComparisonPage.Write(TruePage, Comparer.Compare(Path("harbour.chain.json"), null, Short with { Without = "impact", Match = LevelMatch.TrueLevel }));
        File.WriteAllText(Path("softer.chain.json"), Chain.Replace("\"ratio\": 10", "\"ratio\": 4", StringComparison.Ordinal));
        ComparisonPage.Write(ChangePage, Comparer.Compare(Path("harbour.chain.json"), Path("softer.chain.json"), Short));
        WriteAlbum();
    }

    /// <summary>What the impact bus adds.</summary>
    public ComparisonReport Report { get; }

    public string ImpactPage => Path("impact.html");

    /// <summary>A stereo file of 12 s against itself.</summary>
    public ComparisonReport SameReport { get; }

    public string SamePage => Path("same.html");

    /// <summary>Two mono files.</summary>
    public string MonoPage => Path("mono.html");

    /// <summary>What the impact bus adds, true level asked for.</summary>
    public string TruePage => Path("true.html");

    /// <summary>A chain against the same with a lower ratio.</summary>
    public string ChangePage => Path("change.html");

    public string AlbumPage => Path("album.html");

    public void Dispose() => _folder.Delete(recursive: true);

    private string Path(string name) => System.IO.Path.Combine(_folder.FullName, name);

    private void WriteAlbum()
    {
        var songs = new List<string>();
        foreach (var (title, level) in new[] { ("Harbour Lights", 0.0), ("Slack Water", -1.5), ("North Pier", 2.0) })
        {
            var text = Chain
                .Replace("Harbour Lights", title, StringComparison.Ordinal)
                .Replace("\"room\": -9", "\"room\": " + (level - 9).ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal);
            songs.Add(Path(title));
            SessionPrinter.Print(ChainReader.Parse(text, Path("harbour.chain.json")), new PrintOptions { OutFolder = songs[^1] });
        }

        Comparing.Album.AlbumPage.Write(AlbumPage, AlbumComparer.Compare(songs));
    }

    private void WriteRaw()
    {
        Directory.CreateDirectory(Path("raw"));
        var frames = 14 * Rate;
        var noise = new CounterNoise(7);
        double Hit(int n, double every, double from, double decayS, Func<double, double> sound)
        {
            var t = (n / (double)Rate) - from;
            return t < 0 ? 0 : sound(t % every) * Math.Exp(-(t % every) / decayS);
        }

        double[] Make(Func<int, double> sample) => [.. Enumerable.Range(0, frames).Select(sample)];
        var low = Make(n => Hit(n, 1, 0.5, 0.16, t => 0.7 * Math.Sin(2 * Math.PI * ((55 * t) + (0.9 * (1 - Math.Exp(-t * 60)))))));
        var high = Make(n => Hit(n, 1, 1, 0.09, t => (0.35 * noise.Bipolar(n)) + (0.35 * Math.Sin(2 * Math.PI * 190 * t))));
        double[] Room(int seed) => Make(n => (0.25 * low[Math.Max(0, n - 340 - seed)]) + (0.3 * high[Math.Max(0, n - 350 - seed)])
            + Hit(n, 0.5, 0.5, 0.18, _ => 0.12 * noise.Bipolar(n + ((seed + 1) * 1_000_000))));
        Write("raw/low.wav", low);
        Write("raw/high.wav", high);
        Write("raw/room.wav", Room(0), Room(41));
    }

    private void Write(string name, params double[][] channels)
    {
        using var writer = WaveWriter.Create(Path(name), new AudioFormat(Rate, channels.Length), SampleEncoding.Float32, null, channels[0].Length);
        writer.Write(new AudioBlock(channels, 0, channels[0].Length));
        writer.Finish(channels[0].Length);
        writer.Publish();
    }
}
