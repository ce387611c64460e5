using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Page.Tests;

/// <summary>An invented session of eight seconds for the bench.</summary>
public sealed class BenchSession : IDisposable
{
    private const int Rate = 48000;
    private const int Seconds = 8;

    private const string Text = """
        // Two drums and what is made of them.
        { "chain": 1,
          "song": { "title": "Harbour Lights", "code": "Harbour", "rate_hz": 48000, "tempo": "tempo.json" },
          "tracks": { "low drum": "raw/low.wav", "high drum": "raw/high.wav" },
          "buses": {
            "low":    { "from": { "low drum": -3 } }, // as it was
            "high":   { "from": { "high drum": -5 }, "through": [ { "gate": { "open_db": -30, "hold_ms": 60 } } ] },
            "impact": { "from": { "low": -3, "high": -4 }, "through": [
              { "eq": { "bands": [ { "low_shelf": { "freq_hz": 90, "gain_db": 5 } } ] } },
              { "compress": { "threshold_db": -34, "ratio": 10, "attack_ms": 3, "release_ms": 70, "make_up_db": 9 } } ] } },
          "prints": [
            { "number": 1, "name": "Low", "bus": "low", "level_db": -3 }, { "number": 2, "name": "High", "bus": "high", "level_db": -3 },
            { "number": 3, "name": "Impact", "bus": "impact", "level_db": -9 } ],
          "drum_bus": { "through": [ { "compress": { "threshold_db": -18, "ratio": 2 } } ] } }
        """;

    private static readonly string PairText = Text
        .Replace("\"tracks\": {", "\"tracks\": { \"kick in\": \"raw/kick in.wav\", \"kick out\": \"raw/kick out.wav\",", StringComparison.Ordinal)
        .Replace("\"low drum\": -3 }", "\"low drum\": -3, \"kick in\": -6, \"kick out\": -6 }", StringComparison.Ordinal);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("drumprint-bench-");

    public BenchSession()
        : this(hasPair: false)
    {
    }

    /// <param name="hasPair">Whether the low drum has a second microphone, 2 ms later and the other way up.</param>
    /// <param name="hasMix">Whether the song's own mix is there.</param>
    internal BenchSession(bool hasPair, bool hasMix = false)
    {
        Directory.CreateDirectory(Path.Combine(_folder.FullName, "raw"));
        var noise = new CounterNoise(3);
        Write("raw/low.wav", n => 0.6 * Math.Sin(2 * Math.PI * 60 * n / Rate) * Math.Exp(-(n % (Rate / 2)) / 6000.0));
        Write("raw/high.wav", n => 0.4 * noise.Bipolar(n) * Math.Exp(-((n + (Rate / 4)) % (Rate / 2)) / 3000.0));
        File.WriteAllText(Path.Combine(_folder.FullName, "tempo.json"), """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 120 } ], "last_bar": 4 }""");
        File.WriteAllText(Chain, hasPair ? PairText : Text);
        if (hasMix)
        {
            File.WriteAllText(Chain, MixText);
            BringMix();
        }

        if (hasPair)
        {
            Write("raw/kick in.wav", n => Beat(noise, n));
            Write("raw/kick out.wav", n => -0.7 * Beat(noise, n - (2 * Rate / 1000)));
        }
    }

    /// <summary>The chain text that names the song's own mix.</summary>
    internal static string MixText { get; } = Text.Replace("{ \"chain\": 1,", "{ \"chain\": 1, \"reference\": \"mix/song.wav\",", StringComparison.Ordinal);

    /// <summary>Lays the song's own mix where the chain names it.</summary>
    internal void BringMix()
    {
        Directory.CreateDirectory(Path.Combine(_folder.FullName, "mix"));
        Write("mix/song.wav", n => 0.5 * Math.Sin(2 * Math.PI * 440 * n / Rate));
    }

    public string Chain => Path.Combine(_folder.FullName, "bench.chain.json");

    /// <summary>The chain file as it was written first.</summary>
    public static string Original => Text;

    public void Dispose() => _folder.Delete(recursive: true);

    private static double Beat(CounterNoise noise, int n)
    {
        var since = ((n % (Rate / 2)) + (Rate / 2)) % (Rate / 2);
        return (0.3 * noise.Bipolar(since) * Math.Exp(-since / 250.0)) + (0.4 * Math.Sin(2 * Math.PI * 62 * since / Rate) * Math.Exp(-since / 4000.0));
    }

    /// <summary>Writes a raw file of eight seconds.</summary>
    internal void Write(string name, Func<int, double> sample)
    {
        double[][] channels = [[.. Enumerable.Range(0, Seconds * Rate).Select(sample)]];
        using var writer = WaveWriter.Create(Path.Combine(_folder.FullName, name), new AudioFormat(Rate, 1), SampleEncoding.Pcm24, null, channels[0].Length);
        writer.Write(new AudioBlock(channels, 0, channels[0].Length));
        writer.Finish(channels[0].Length);
        writer.Publish();
    }
}
