using DrumPrint.Audio;
using DrumPrint.Reprinting;
using DrumPrint.Tests.Audio;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Session;

/// <summary>A session of FLAC files against the same samples in WAV.</summary>
public sealed class FlacSessionTests : IDisposable
{
    private const int Frames = 40000;
    private readonly TestSession _session = new();

    public FlacSessionTests()
    {
        Put("a", [Whole(Signals.Hits(Frames, 1))]);
        Put("b", [Whole(Signals.Hits(Frames, 2)), Whole(Signals.Hits(Frames, 3))]);
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void The_same_samples_give_the_same_prints()
    {
        var wave = Prints("wav");

        var flac = Prints("flac");

        Assert.NotEmpty(wave);
        Assert.Equal(wave, flac);
    }

    [Fact]
    public void A_print_of_wave_files_is_made_again_from_flac_and_the_other_way_round()
    {
        foreach (var (from, to) in new[] { ("wav", "flac"), ("flac", "wav") })
        {
            Prints(from);
            var there = Directory.CreateDirectory(Path.Combine(_session.Folder, "only " + to)).FullName;
            foreach (var name in new[] { "a", "b" })
            {
                File.Copy(Path.Combine(_session.Folder, $"{name}.{to}"), Path.Combine(there, $"kept-{name}.{to}"));
                File.Move(Path.Combine(_session.Folder, $"{name}.{from}"), Path.Combine(_session.Folder, $"{name}.{from}.away"));
            }

            Assert.All(Reprinter.Reprint(_session.Prints, new ReprintOptions { RawFolders = [there] }).Prints, p => Assert.Equal(ReprintOutcome.Identical, p.Outcome));
            Array.ForEach(["a", "b"], n => File.Move(Path.Combine(_session.Folder, $"{n}.{from}.away"), Path.Combine(_session.Folder, $"{n}.{from}")));
        }
    }

    [Fact]
    public void A_damaged_file_stops_the_print_and_nothing_is_written()
    {
        var path = Path.Combine(_session.Folder, "b.flac");
        var bytes = File.ReadAllBytes(path);
        bytes[bytes.Length / 2] ^= 8;
        File.WriteAllBytes(path, bytes);

        var e = Assert.Throws<AudioFileException>(() => Prints("flac"));

        Assert.Contains("b.flac: the file is damaged: FLAC frame", e.Message, StringComparison.Ordinal);
        Assert.Empty(_session.Files());
    }

    private static long[] Whole(double[] samples) => [.. samples.Select(s => (long)Math.Round(s * (1 << 23)))];

    private void Put(string name, long[][] channels)
    {
        Planar.Write(Path.Combine(_session.Folder, name + ".wav"), [.. channels.Select(c => c.Select(s => Math.ScaleB(s, -23)).ToArray())], SampleEncoding.Pcm24);
        var stream = new FlacStream { Bits = 24, Blocks = [4096], Sides = channels.Length == 2 ? 10 : -1, Coding = (_, _) => new FlacCoding("fixed", 1) { IsLongParameter = true, PartitionOrder = 0 } };
        File.WriteAllBytes(Path.Combine(_session.Folder, name + ".flac"), stream.Write(channels));
    }

    // Names and hashes of the samples.
    private (string, string)[] Prints(string kind)
    {
        if (Directory.Exists(_session.Prints))
        {
            Directory.Delete(_session.Prints, recursive: true);
        }

        _session.Print(_session.Chain($$"""
            "tracks": { "a": "a.{{kind}}", "b": { "file": "b.{{kind}}", "delay_frames": 9 } },
            "buses": { "all": { "from": { "a": -3, "b": { "level_db": -6, "pan_pct": 20 } } }, "one": { "from": { "a": 0 } } },
            "prints": [ { "number": 1, "name": "All", "bus": "all" }, { "number": 2, "name": "One", "bus": "one" } ]
            """));
        return [.. _session.Files().Where(f => f.EndsWith(".wav", StringComparison.Ordinal)).Select(f => (f, FileHash.AudioSha256(Path.Combine(_session.Prints, f))))];
    }
}
