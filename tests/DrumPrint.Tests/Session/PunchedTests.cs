using DrumPrint.Audio;
using DrumPrint.Beginning;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Checking;
using DrumPrint.Diff;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Files;
using DrumPrint.Live;
using DrumPrint.Printing;
using DrumPrint.Reprinting;
using DrumPrint.Session;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Session;

/// <summary>Tracks that are several files, punched in one after another.</summary>
public sealed class PunchedTests : IDisposable
{
    private const int Frames = 30000;
    private const long Clock = 3600L * TestSession.Rate;
    private const int Fade = 240; // 5 ms

    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Files_that_meet_print_as_one()
    {
        var whole = Noise("whole", Frames);
        Write("whole.wav", 0, whole);
        Write("a.wav", Clock, whole[..11111]);
        Write("b.wav", Clock + 11111, whole[11111..]);

        _session.Print(Chain("\"file\": \"whole.wav\""));
        var one = _session.Read("01_A_Test_v1.wav");
        _session.Print(Chain(Files("a.wav", "b.wav")));

        Audio.Planar.AssertSame(one, _session.Read("01_A_Test_v1.wav"));
    }

    [Fact]
    public void A_gap_is_silence_and_an_overlap_is_the_file_named_later()
    {
        var (a, b, c) = (Noise("a", 9000), Noise("b", 3000), Noise("c", 4000));
        Write("a.wav", Clock + 500, a);
        Write("b.wav", Clock + 3500, b);
        Write("c.wav", Clock + 12500, c);

        double[] Expected(bool isPunchOver)
        {
            var line = new double[16000];
            a.CopyTo(line, 0);
            for (var n = 0; n < b.Length; n++)
            {
                // A straight line over 5 ms, as the guide says.
                var part = isPunchOver ? Math.Min(1.0, Math.Min((n + 1.0) / (Fade + 1), (b.Length - n) / (Fade + 1.0))) : 0;
                line[3000 + n] = (line[3000 + n] * (1 - part)) + (b[n] * part);
            }

            c.CopyTo(line, 12000);
            return line;
        }

        Assert.Equal(Expected(true), Heard(Files("a.wav", "b.wav", "c.wav")), Same);
        Assert.Equal(Expected(true), Heard(Files("c.wav", "a.wav", "b.wav")), Same);
        Assert.Contains("by their time stamps a.wav lies over all of it", Problem(Files("b.wav", "a.wav", "c.wav")), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_read_in_any_order_is_what_is_read_from_the_start()
    {
        Write("a.wav", Clock, Noise("a", 9000), Noise("ar", 9000));
        Write("b.wav", Clock + 7000, Noise("b", 5000), Noise("br", 5000));
        Write("c.wav", Clock + 20000, Noise("c", 300), Noise("cr", 300));
        var splice = Splice.Read([.. new[] { "a.wav", "b.wav", "c.wav" }.Select(f => (f, Path.Combine(_session.Folder, f)))]);
        double[][] whole = [new double[splice.Info.Frames], new double[splice.Info.Frames]];
        using var reader = splice.Open(AudioHashes.None);
        reader.Read(new AudioBlock(whole, 0, (int)splice.Info.Frames));
        using var windows = new SplicedWindows(splice);

        foreach (var first in new long[] { 19000, 6900, -50, 20200, 8990, 0 })
        {
            var part = new double[777];
            windows.Read(1, first, part);
            Assert.Equal([.. Enumerable.Range(0, 777).Select(n => first + n is >= 0 and var f && f < splice.Info.Frames ? whole[1][f] : 0)], part);
        }

        using var late = splice.Open(AudioHashes.None);
        late.Skip(7100);
        double[][] rest = [new double[500]];
        Assert.Equal(500, late.Read(new AudioBlock(rest, 0, 500), [1]));
        Assert.Equal(whole[1][7100..7600], rest[0]);
    }

    [Fact]
    public void A_file_that_does_not_fit_its_track_is_told_in_words()
    {
        Write("a.wav", Clock, Noise("a", 900));
        Write("stereo.wav", Clock + 2000, Noise("l", 900), Noise("r", 900));
        Write("late.wav", Clock + (8 * 3600L * TestSession.Rate), Noise("x", 900));
        Write("under.wav", Clock + 100, Noise("u", 500));
        Write("silent.wav", null, Noise("s", 900));

        Assert.Contains("track 'a': silent.wav: has no time stamp", Problem(Files("a.wav", "silent.wav")), StringComparison.Ordinal);
        Assert.Contains("stereo.wav: is at 48000 Hz with 2 channels of 32f bits, and a.wav is at 48000 Hz with 1 channel of 32f bits.", Problem(Files("a.wav", "stereo.wav")), StringComparison.Ordinal);
        Assert.Contains("late.wav: begins 8 hours after the first file", Problem(Files("a.wav", "late.wav")), StringComparison.Ordinal);
        Assert.Contains("under.wav: is never heard", Problem(Files("under.wav", "a.wav")), StringComparison.Ordinal);
        Assert.Contains("gone.wav: there is no such file", Problem(Files("a.wav", "gone.wav")), StringComparison.Ordinal);
        Assert.Contains("a track has 'file' or 'files', not both", Mistake("\"file\": \"a.wav\", \"files\": [\"a.wav\", \"b.wav\"]"), StringComparison.Ordinal);
        Assert.Contains("Name this one in 'file'", Mistake(Files("a.wav")), StringComparison.Ordinal);
        Assert.Contains("names a.wav twice", Mistake(Files("a.wav", "b.wav", "a.wav")), StringComparison.Ordinal);
        Assert.Contains("'file' is missing", Mistake("\"level_db\": 0"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void The_ticket_holds_every_file_and_its_place_and_prints_are_made_again_by_them(bool hasStore)
    {
        Write("a.wav", Clock, Noise("a", 20000));
        Write("b.wav", Clock + 15000, Noise("b", 20000));
        _session.Print(Chain(Files("a.wav", "b.wav")), Stored(hasStore));
        var ticket = Ticket.Read(Path.Combine(_session.Prints, "Test_v1.ticket.json"));

        Assert.Equal([("a", "a.wav", Hash("a.wav"), 0L), ("a", "b.wav", Hash("b.wav"), 15000L)], ticket.Tracks.Select(t => (t.Name, t.File, t.AudioSha256, t.StartFrame!.Value)));
        Assert.All(ticket.Tracks, t => Assert.Equal(FileHash.Sha256(Path.Combine(_session.Folder, t.File)), t.FileSha256));
        Assert.Equal(["a.wav", "b.wav"], ticket.Chain.Tracks[0].Files);

        // Under other names and without their stamps: the ticket, and the print by itself, know where each belongs.
        Write("x.wav", null, Noise("a", 20000));
        Write("y.wav", 7, Noise("b", 20000));
        File.Delete(Path.Combine(_session.Folder, "a.wav"));
        File.Delete(Path.Combine(_session.Folder, "b.wav"));
        Assert.True(Reprinter.Reprint(_session.Prints, new ReprintOptions()).IsIdentical);
        Assert.True(Reprinter.Reprint(Path.Combine(_session.Prints, "01_A_Test_v1.wav"), new ReprintOptions()).IsIdentical);
    }

    [Fact]
    public void With_a_store_a_file_that_moved_makes_another_print()
    {
        Write("a.wav", Clock, Noise("a", 9000));
        Write("b.wav", Clock + 12000, Noise("b", 9000));
        _session.Print(Chain(Files("a.wav", "b.wav")), Stored(true));
        Write("b.wav", Clock + 12001, Noise("b", 9000));

        _session.Print(Chain(Files("a.wav", "b.wav"), version: 2), Stored(true));

        var line = _session.Read("01_A_Test_v2.wav")[0];
        Assert.Equal(0, line[12000]);
        Assert.Equal(Noise("b", 9000)[..3], line[12001..12004], Same);
    }

    [Fact]
    public void The_written_chain_is_read_as_the_same_and_changes_are_told_file_by_file()
    {
        var chain = Chain(Files("a.wav", "b.wav"));
        Assert.Equal(ChainWriter.Canonical(chain), ChainWriter.Canonical(ChainReader.Parse(ChainWriter.Canonical(chain), chain.Path)));

        IReadOnlyList<string> Changes(string before, string now) => [.. ChainChanges.Of(Made.Of("a", Chain(before)), Made.Of("b", Chain(now))).Select(c => c.ToString()!)];
        Assert.Contains("b.wav left out", string.Join('\n', Changes(Files("a.wav", "b.wav"), Files("a.wav", "c.wav"))), StringComparison.Ordinal);
        Assert.Contains("c.wav added", string.Join('\n', Changes(Files("a.wav", "b.wav"), Files("a.wav", "b.wav", "c.wav"))), StringComparison.Ordinal);
        Assert.Contains("files stand in another order", Assert.Single(Changes(Files("a.wav", "b.wav"), Files("b.wav", "a.wav"))), StringComparison.Ordinal);
        Assert.Empty(Changes(Files("a.wav", "b.wav"), Files("a.wav", "b.wav")));
    }

    [Fact]
    public void The_check_listens_to_all_files_of_a_track()
    {
        var loud = new double[9000];
        Array.Fill(loud, 1.0, 4000, 60);
        Write("a.wav", Clock, Noise("a", 9000));
        Write("b.wav", Clock + 9000, loud);
        File.WriteAllText(Path.Combine(_session.Folder, "test.chain.json"), Text(Files("a.wav", "b.wav")));

        var report = Checker.Check(_session.Folder, new CheckOptions());

        Assert.Contains(report.Findings, f => f.Rule.Id == "C1" && f.Track == "a" && f.PlacesS[0] is > 0.27 and < 0.28);
        File.Delete(Path.Combine(_session.Folder, "b.wav"));
        Assert.Contains(Checker.Check(_session.Folder, new CheckOptions()).Findings, f => f.Rule.Id == "D4" && f.Track == "a" && f.Measured == "no b.wav");
    }

    [Fact]
    public void The_bench_hears_what_the_print_has()
    {
        Write("a.wav", Clock, Noise("a", 9000));
        Write("b.wav", Clock + 7000, Noise("b", 9000));
        var chain = Chain(Files("a.wav", "b.wav"));
        using var recordings = new Recordings();
        var input = SessionInputs.Open(chain, ReadPolicy.Default).Tracks["a"];
        double[][] live = [new double[3000]];
        using (var source = recordings.Open(input, [0]))
        {
            source.Start(6500);
            source.Read(new AudioBlock(live, 0, 3000));
        }

        Assert.Equal(Heard(Files("a.wav", "b.wav"))[6500..9500], live[0], Same);
    }

    [Theory]
    [InlineData(1000, true)]
    [InlineData(40 * TestSession.Rate, false)]
    public void A_first_chain_takes_what_was_punched_in_for_one_track(int gap, bool isOne)
    {
        var hits = Hits(6);
        Write("Kick Take 1.wav", Clock, hits);
        Write("Kick Take 2.wav", Clock + hits.Length + gap, hits);
        Write("Snare.wav", Clock, [.. hits.Select((x, n) => n > 9000 ? hits[n - 9000] * Noise("snares", 1)[0] * 2 : 0)]);

        var begun = Beginner.Begin(_session.Folder, (_, _) => { }, CancellationToken.None);

        var chain = ChainReader.Read(begun.ChainPath);
        Assert.Equal(isOne, !begun.LeftOut.Any(l => l.File == "Kick Take 2.wav"));
        Assert.Equal(isOne ? 1 : 0, chain.Tracks.Count(t => t.Punched.Any));
        if (isOne)
        {
            Assert.Equal(["Kick Take 1.wav", "Kick Take 2.wav"], Assert.Single(chain.Tracks, t => t.Punched.Any).Files);
            Assert.Contains(begun.Notes, n => n.Contains("punched in", StringComparison.Ordinal));
            _session.Print(chain);
        }
    }

    private static double[] Hits(int seconds)
    {
        var line = new double[seconds * TestSession.Rate];
        for (var hit = 0; hit < seconds * 2; hit++)
        {
            for (var n = 0; n < 6000; n++)
            {
                line[(hit * TestSession.Rate / 2) + 500 + n] += 0.5 * Elementary.Exp(-n / 1500.0) * Elementary.Sin(2 * Math.PI * 70 * n / TestSession.Rate);
            }
        }

        return line;
    }

    private static bool Same(double a, double b) => Math.Abs(a - b) < 1e-6; // 32-bit files

    private static double[] Noise(string name, int frames) => [.. Enumerable.Range(0, frames).Select(n => (double)(float)(0.4 * ((2 * CounterNoise.FromName(name).Unit(n)) - 1)))];

    private static string Files(params string[] files) => $"\"files\": [{string.Join(", ", files.Select(f => $"\"{f}\""))}]";

    private PrintOptions Stored(bool isWanted) => new() { Store = isWanted ? new StoreOptions(Path.Combine(_session.Folder, "store")) : null };

    private static string Body(string track) => $$"""
        "tracks": { "a": { {{track}} } },
        "buses": { "bus a": { "from": { "a": 0 }, "channels": "mono" } },
        "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ],
        "output": { "bits": "32f", "rough": false, "tail_s": 0 }
        """;

    private static string Text(string track, int version = 1) => $$"""
        { "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000, "version": {{version}} }, {{Body(track)}} }
        """;

    private Chain Chain(string track, int version = 1) => ChainReader.Parse(Text(track, version), Path.Combine(_session.Folder, "test.chain.json"));

    private string Hash(string file) => FileHash.AudioSha256(Path.Combine(_session.Folder, file));

    private string Problem(string track) => Assert.Throws<InputException>(() => SessionInputs.Open(Chain(track), ReadPolicy.Default)).Message;

    private string Mistake(string track) => Assert.Throws<ChainException>(() => Chain(track)).Message;

    private double[] Heard(string track)
    {
        var input = SessionInputs.Open(Chain(track), ReadPolicy.Default).Tracks["a"];
        double[][] line = [new double[input.Frames]];
        using var source = input.Open(AudioHashes.None);

        // In uneven blocks, as a render may ask.
        for (var done = 0; done < line[0].Length;)
        {
            var frames = Math.Min(line[0].Length - done, 501);
            source.Read(new AudioBlock(line, done, frames));
            done += frames;
        }

        return line[0];
    }

    private void Write(string file, long? stamp, params double[][] channels)
    {
        using var writer = WaveWriter.Create(Path.Combine(_session.Folder, file), new AudioFormat(TestSession.Rate, channels.Length), SampleEncoding.Float32, stamp is { } frame ? new BroadcastExtension { TimeReference = frame } : null, channels[0].Length);
        writer.Write(new AudioBlock(channels, 0, channels[0].Length));
        writer.Finish(channels[0].Length);
        writer.Publish();
    }
}
