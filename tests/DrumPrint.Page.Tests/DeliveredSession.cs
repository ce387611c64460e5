using DrumPrint.Audio;
using DrumPrint.Chains.Reading;
using DrumPrint.Delivering;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Printing;
using DrumPrint.Session;

namespace DrumPrint.Page.Tests;

/// <summary>A small session of its own, printed and delivered.</summary>
internal sealed class DeliveredSession : IDisposable
{
    private const int Rate = 48000;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("drumprint-received-");

    public DeliveredSession(int seconds, bool splitsStereo = false)
    {
        Directory.CreateDirectory(Path.Combine(_folder.FullName, "raw"));
        for (var track = 0; track < 4; track++)
        {
            Write($"raw/{track}.wav", Track(track, seconds));
        }

        File.WriteAllText(Path.Combine(_folder.FullName, "tempo.json"), """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 120 } ], "sections": [ { "from_bar": 1, "name": "verse" }, { "from_bar": 4, "name": "chorus" } ], "last_bar": 6 }""");
        var chain = ChainReader.Parse(
            """
            { "chain": 1, "song": { "title": "Slack Water", "code": "Slack", "rate_hz": 48000, "tempo": "tempo.json" },
              "tracks": { "kick": "raw/0.wav", "snare": "raw/1.wav", "room": "raw/2.wav", "door": "raw/3.wav" },
              "buses": { "k": { "from": { "kick": -4 } }, "s": { "from": { "snare": { "level_db": -6, "pan_pct": 20 } } }, "r": { "from": { "room": -9 }, "through": [ { "compress": { "threshold_db": -30, "ratio": 4 } } ] }, "d": { "from": { "door": -9 } } },
              "prints": [ { "number": 1, "name": "Kick", "bus": "k" }, { "number": 2, "name": "Snare", "bus": "s", "notes": "Keep its rattle." }, { "number": 3, "name": "Room", "bus": "r" }, { "number": 4, "name": "Door", "bus": "d", "optional": true } ],
              "drum_bus": { "through": [ { "eq": { "bands": [ { "low_shelf": { "freq_hz": 90, "gain_db": 3 } } ] } }, { "compress": { "threshold_db": -24, "ratio": 4, "make_up_db": 4 } } ] } }
            """,
            Path.Combine(_folder.FullName, "slack.chain.json"));
        SessionPrinter.Print(chain, new PrintOptions());
        var report = Deliverer.Deliver(chain, new DeliveryOptions { To = Path.Combine(_folder.FullName, "out"), SplitsStereo = splitsStereo });
        Folder = report.Written[0];
        Manifest = report.Manifest;
    }

    /// <summary>The delivered folder.</summary>
    public string Folder { get; }

    public DeliveryManifest Manifest { get; }

    public string Page => PathOf(DeliveredKind.Page);

    public string PathOf(DeliveredKind kind) => Path.Combine(Folder, Manifest.Files.First(f => f.Kind == kind).Name);

    /// <summary>The left channel of a delivered file.</summary>
    public static float[] Left(string path)
    {
        using var reader = AudioReader.Open(path);
        var channels = Enumerable.Range(0, reader.Info.Channels).Select(_ => new double[reader.Info.Frames]).ToArray();
        reader.Read(new AudioBlock(channels, 0, channels[0].Length));
        return [.. channels[0].Select(x => (float)x)];
    }

    public void Dispose() => _folder.Delete(recursive: true);

    // Never the same twice, so that a place is known by what sounds there.
    private static double[] Track(int track, int seconds)
    {
        var noise = new CounterNoise((ulong)(track + 3));
        return [.. Enumerable.Range(0, seconds * Rate).Select(n => 0.4 * noise.Bipolar(n) * Math.Exp(-((n + (6000 * track)) % 24000) / 4000.0))];
    }

    private void Write(string name, double[] channel)
    {
        using var writer = WaveWriter.Create(Path.Combine(_folder.FullName, name), new AudioFormat(Rate, 1), SampleEncoding.Float32, null, channel.Length);
        writer.Write(new AudioBlock([channel], 0, channel.Length));
        writer.Finish(channel.Length);
        writer.Publish();
    }
}
