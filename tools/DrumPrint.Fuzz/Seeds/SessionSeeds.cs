using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Delivering;
using DrumPrint.Dsp;
using DrumPrint.Files;
using DrumPrint.Fuzz.Targets;
using DrumPrint.Printing;
using DrumPrint.Session;
using DrumPrint.Store;
using DrumPrint.Tickets;
using static DrumPrint.Fuzz.Seeds.SeedWriter;

namespace DrumPrint.Fuzz.Seeds;

/// <summary>What a small session leaves: ticket, the chunk of a print, a delivery's manifest, and entries of a store.</summary>
internal static class SessionSeeds
{
    private const int Rate = 8000;
    private const int Frames = 4000;

    private const string Text = """
        { "chain": 1, "song": { "title": "Fuzz", "code": "Fuzz", "rate_hz": 8000, "tempo": "tempo.json", "perspective": "drummer", "notes": "Close but dented." },
          "tracks": { "a": { "file": "raw/a.wav", "polarity": "inverted" }, "b": { "file": "raw/b.wav", "delay_ms": 1.5 } },
          "buses": { "one": { "from": { "a": -12 }, "through": [ { "compress": { "ratio": 4, "threshold_db": -30 } } ] }, "two": { "from": { "b": { "level_db": -8, "pan_pct": 30 } } } },
          "prints": [ { "number": 1, "name": "One", "bus": "one", "keep": "must" }, { "number": 2, "name": "Two", "bus": "two" } ],
          "output": { "click": true } }
        """;

    public static IEnumerable<Seed> All()
    {
        using var folder = new ScratchFolder();
        var chain = Session(folder);
        SessionPrinter.Print(chain, new PrintOptions());
        var prints = folder.File("prints");
        yield return new Seed("ticket", "good-session.json", File.ReadAllBytes(TicketFiles.OnlyOneIn(prints)!));
        yield return SeedWriter.Text("ticket", "bad-elsewhere.json", File.ReadAllText(TicketFiles.OnlyOneIn(prints)!).Replace("\"01_One", "\"../01_One", StringComparison.Ordinal));
        foreach (var print in Directory.GetFiles(prints, "0*.wav").Order(StringComparer.Ordinal))
        {
            using var reader = AudioReader.Open(print);
            yield return new Seed("part", $"good-{Path.GetFileNameWithoutExtension(print)[..6]}.json", reader.Chunk(PrintPart.ChunkId)!.Data.ToArray());
        }

        yield return SeedWriter.Text("part", "bad-later.json", """{ "print_part": 3 }""");
        var delivered = Deliverer.Deliver(chain, new DeliveryOptions { To = folder.File("out") });
        yield return new Seed("delivery", "good-session.json", File.ReadAllBytes(Path.Combine(folder.File("out"), delivered.Manifest.FolderName, delivered.Manifest.FileName)));
        yield return SeedWriter.Text("delivery", "bad-name.json", """{ "delivery": 1, "engine": "0.1.0", "title": "F", "code": "F", "version": 1, "rate_hz": 48000, "frames": 4, "encoding": "int24", "chain_sha256": "0", "files": [ { "file": "../x", "bytes": 1, "file_sha256": "0" } ] }""");
        foreach (var seed in Store(folder))
        {
            yield return seed;
        }
    }

    private static Chain Session(ScratchFolder folder)
    {
        Directory.CreateDirectory(folder.File("raw"));
        foreach (var (name, step) in new[] { ("a", 0.9), ("b", 0.95) })
        {
            double[][] samples = [[.. Enumerable.Range(0, Frames).Select(n => ((n % 500) - 250) / 400.0 * Math.Pow(step, n % 500))]];
            using var writer = WaveWriter.Create(folder.File($"raw/{name}.wav"), new AudioFormat(Rate, 1), SampleEncoding.Pcm24, null, Frames);
            writer.Write(new AudioBlock(samples, 0, Frames));
            writer.Finish(Frames);
            writer.Publish();
        }

        File.WriteAllText(folder.File("tempo.json"), """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 400 } ], "last_bar": 1 }""");
        return ChainReader.Parse(Text, folder.File("fuzz.chain.json"));
    }

    private static IEnumerable<Seed> Store(ScratchFolder folder)
    {
        var sums = StoreSecret.Sums();
        var memo = new PrintMemo("01 One", 1, 0.5, 800, 900, 1000, 12, new WrittenMemo(
            1000, new string('0', 64), new string('1', 64), -20.5, 12.25, 3.5, -18, double.NegativeInfinity, [new GainReduction("compress", 2.5, 6) { Bus = "one" }], 0))
        {
            TruePeakDb = -6.02,
        };
        yield return new Seed("memo", "good-written", PrintMemoText.Of(sums, StoreSecret.Key, memo));
        yield return new Seed("memo", "good-measured", PrintMemoText.Of(sums, StoreSecret.Key, memo with { Written = null }));
        yield return SeedWriter.Text("memo", "bad-no-line", "{}");
        foreach (var (channels, frames) in new[] { (1, 0), (2, 40), (1, 8200) })
        {
            var path = folder.File("entry.signal");
            var traces = new Dictionary<string, IReadOnlyList<GainTrace>> { [StoreSecret.Key] = [new GainTrace("compress", 4, 16, new float[] { 0.5f, 0.25f, 1, 1 })] };
            using (var writer = SignalWriter.Create(path, new SignalHeader(StoreSecret.Key, "one", channels, frames, 4, frames), traces, sums, FileSteps.Plain))
            {
                writer.Write(new AudioBlock([.. Enumerable.Range(0, channels).Select(_ => new double[Math.Max(1, frames)])], 0, frames));
                writer.Commit();
            }

            // The salt is random; here it is not.
            var bytes = File.ReadAllBytes(path);
            bytes.AsSpan(SignalLayout.Mark.Length, SignalLayout.SaltBytes).Fill(7);
            yield return new Seed("signal", $"good-{channels}-{frames}", SignalSums.PutRight(bytes, sums));
        }

        yield return SeedWriter.Text("signal", "bad-mark", "DPSIGNL3");
        foreach (var (name, secret) in new[] { ("good-mine", StoreSecret.Bytes), ("bad-theirs", new byte[32]) })
        {
            yield return new Seed("mark", name, Mark(secret));
        }
    }

    private static byte[] Mark(byte[] secret)
    {
        var text = $"drumprint store 2\n{StoreSecret.Store}";
        return System.Text.Encoding.UTF8.GetBytes($"{text}\n{Convert.ToHexStringLower(System.Security.Cryptography.HMACSHA256.HashData(secret, System.Text.Encoding.UTF8.GetBytes(text)))}\n");
    }
}
