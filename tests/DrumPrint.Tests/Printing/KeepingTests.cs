using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Printing.Runs;
using DrumPrint.Session;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Printing;

public sealed class KeepingTests : IDisposable
{
    private static readonly string[] All = ["01", "02", "03", "90", "91", "92"];
    private readonly TestSession _session = new();
    private readonly Kept _kept;

    public KeepingTests()
    {
        BusySession.Write(_session);
        _kept = new Kept(_session);
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_first_print_renders_everything_and_says_so()
    {
        var report = _kept.PrintAsCold(Chain());

        Assert.Equal(All, Kept.Rendered(report));
        Assert.All(report.Prints, p => Assert.Equal(["not printed here before"], p.Because));
        Assert.Empty(report.StoreNotes);
    }

    [Fact]
    public void Nothing_changed_renders_nothing_and_touches_no_file()
    {
        _kept.Print(Chain());
        var old = DateTime.UnixEpoch.AddYears(30);
        var files = Directory.GetFiles(_session.Prints);
        Assert.All(files, f => File.SetLastWriteTimeUtc(f, old));

        var report = _kept.PrintAsCold(Chain());

        Assert.Empty(Kept.Rendered(report));
        Assert.Empty(report.Profile!.Steps);
        Assert.All(files, f => Assert.Equal(old, File.GetLastWriteTimeUtc(f)));
    }

    [Fact]
    public void After_a_run_of_some_prints_that_were_there_the_next_whole_one_renders_nothing()
    {
        _kept.Print(Chain());
        _kept.Print(Chain(), new PrintOptions { Only = ["01"] });

        Assert.DoesNotContain("90", Kept.Rendered(_kept.PrintAsCold(Chain())));
    }

    // What each change reaches, and how it is told.
    [Theory]
    [InlineData("\"level_db\": -8", "\"level_db\": -9.5", "02 90 91", "bus b: b level −8 → −9.5 dB (1.5 dB down)")]
    [InlineData("\"pan_pct\": 30", "\"pan_pct\": -30", "02 90 91", "bus b: b pan 30 → −30 %")]
    [InlineData("\"db\": 2", "\"db\": 3", "02 90 91", "bus b: b ride bars 1 to 1 +2 dB in 50 ms → bars 1 to 1 +3 dB in 50 ms")]
    [InlineData("\"ratio\": 4", "\"ratio\": 6", "02 90 91", "bus b: compressor ratio 4 → 6")]
    [InlineData(", \"key\": \"bus a\"", "", "02 90 91", "bus b: compressor listens to bus a → its own input")]
    [InlineData("\"drive_db\": 3", "\"drive_db\": 4", "01 02 90 91", "bus a: saturation drive 3 → 4 dB")]
    [InlineData("{ \"gate\": { \"look_ahead_ms\": 1, \"range_db\": -20 } }, { \"saturate\": { \"drive_db\": 3 } }", "{ \"saturate\": { \"drive_db\": 3 } }, { \"gate\": { \"look_ahead_ms\": 1, \"range_db\": -20 } }", "01 02 90 91", "bus a: processors in another order: gate, saturation → saturation, gate")]
    [InlineData("\"look_ahead_ms\": 1", "\"look_ahead_ms\": 3", "01 02 90 91", "bus a: gate look ahead 1 → 3 ms")]
    [InlineData("\"b\": \"raw/b.wav\"", "\"b\": { \"file\": \"raw/b.wav\", \"delay_ms\": 0.5 }", "02 90 91", "b: delay none → 0.5 ms")]
    [InlineData("\"b\": \"raw/b.wav\"", "\"b\": { \"file\": \"raw/b.wav\", \"delay_frames\": 20.5, \"exact\": true }", "02 90 91", "b: delay none → 20.5 frames, exact")]
    [InlineData("\"c\": -10", "\"c\": { \"level_db\": -10, \"polarity\": \"inverted\" }", "03 90 91", "wet: c polarity normal → inverted")]
    [InlineData("\"name\": \"A\", \"bus\": \"bus a\"", "\"name\": \"A\", \"bus\": \"bus a\", \"level_db\": -1", "01 90 91", "01 A: level 0 → −1 dB (1 dB down)")]
    [InlineData("\"compress\": { \"ratio\": 2 }", "\"compress\": { \"ratio\": 2, \"release_ms\": 300 }", "91", "drum bus: compressor release 120 → 300 ms")]
    [InlineData("\"click\": true", "\"click\": { \"peak_db\": -20 }", "92", "click: peak −12 → −20 dB (8 dB down)")]
    [InlineData("\"click\": true", "\"click\": true, \"bits\": 16", "01 02 03 90 91 92", "output: bits 24 → 16")]
    public void A_change_renders_what_it_reaches_tells_why_and_gives_the_bytes_of_a_print_from_nothing(string from, string to, string reaches, string because)
    {
        _kept.Print(Chain());

        var report = _kept.PrintAsCold(Chain(from, to));

        Assert.Equal(reaches.Split(' '), Kept.Rendered(report));
        Assert.All(report.Prints.Where(p => !p.IsUnchanged), p => Assert.Equal([because], p.Because));
    }

    [Fact]
    public void A_new_name_is_told_by_the_file_of_this_version_whatever_others_lie_there()
    {
        _kept.Print(Chain());
        _kept.Print(_session.Chain(BusySession.Body, $"{BusySession.Song}, \"version\": 2"));

        var report = _kept.Print(Chain("\"name\": \"A\",", "\"name\": \"Other\","));

        Assert.Equal(["01 Other: name A → Other"], report.Prints[0].Because);
    }

    [Fact]
    public void A_print_taken_out_of_the_rough_makes_the_roughs_again()
    {
        _kept.Print(Chain());

        var report = _kept.PrintAsCold(Chain("\"name\": \"Wet\", \"bus\": \"wet\"", "\"name\": \"Wet\", \"bus\": \"wet\", \"optional\": true"));

        Assert.Equal(["03", "90", "91"], Kept.Rendered(report));
        Assert.Equal(["03 Wet: part of the rough yes → no"], report.Prints[2].Because);
        Assert.Equal(["03 Wet: no part of the rough any more"], report.Prints[3].Because);
    }

    [Fact]
    public void Going_back_and_forth_always_gives_the_bytes_of_a_print_from_nothing()
    {
        (string From, string To)[] edits =
        [
            ("\"level_db\": -8", "\"level_db\": -9"), ("\"drive_db\": 3", "\"drive_db\": 2"), ("\"ratio\": 2", "\"ratio\": 3"), ("\"range_db\": -20", "\"range_db\": -30"),
            ("\"c\": -10", "\"c\": -11"), ("\"delay_ms\": 1.5", "\"delay_ms\": 0"), ("\"name\": \"B\", \"bus\": \"bus b\"", "\"name\": \"B\", \"bus\": \"bus a\""),
        ];
        var random = new Random(7);
        var on = new bool[edits.Length];
        for (var step = 0; step < 8; step++)
        {
            var n = random.Next(edits.Length);
            on[n] = !on[n];
            var body = edits.Where((_, i) => on[i]).Aggregate(BusySession.Body, (text, e) => text.Replace(e.From, e.To, StringComparison.Ordinal));

            _kept.PrintAsCold(_session.Chain(body, BusySession.Song), new PrintOptions { BlockFrames = step % 2 == 0 ? 4096 : 777, Threads = 1 + (step % 3) });
        }
    }

    // A tape looks ahead, so its last frames hold what its input does after the end of the files.
    [Theory]
    [InlineData("\"tail_s\": 0.04")]
    [InlineData("\"tail_cap_s\": 0.03")]
    [InlineData("\"tail_s\": 0")]
    public void A_tail_that_is_cut_gives_the_bytes_of_a_print_from_nothing(string output)
    {
        var body = BusySession.Body
            .Replace("\"wet\": { \"from\"", "\"taped\": { \"from\": { \"wet\": 0, \"b\": -9 }, \"through\": [ { \"tape\": { } } ] }, \"wet\": { \"from\"", StringComparison.Ordinal)
            .Replace("\"prints\": [", "\"prints\": [ { \"number\": 4, \"name\": \"Taped\", \"bus\": \"taped\" },", StringComparison.Ordinal)
            .Replace("{ \"compress\": { \"ratio\": 2 } }", "{ \"tape\": { \"drive_db\": 1 } }", StringComparison.Ordinal)
            .Replace("\"click\": true", output, StringComparison.Ordinal);
        _kept.PrintAsCold(_session.Chain(body, BusySession.Song));

        var feed = _kept.PrintAsCold(_session.Chain(body.Replace("\"b\": -9", "\"b\": -10", StringComparison.Ordinal), BusySession.Song));
        var bus = _kept.PrintAsCold(_session.Chain(body.Replace("\"drive_db\": 1", "\"drive_db\": 2", StringComparison.Ordinal), BusySession.Song));

        Assert.Equal(["04", "90", "91"], Kept.Rendered(feed));
        Assert.Contains(feed.Profile!.Steps, n => n.Name == "wet (kept)");
        Assert.Contains(bus.Profile!.Steps, n => n.Name == "rough (kept)");
    }

    [Fact]
    public void Other_names_of_raw_files_and_a_new_version_render_no_bus_again()
    {
        _kept.Print(Chain());
        File.Move(Path.Combine(_session.Folder, "raw", "c.wav"), Path.Combine(_session.Folder, "raw", "take 7.wav"));

        var report = _kept.PrintAsCold(_session.Chain(BusySession.Body.Replace("raw/c.wav", "raw/take 7.wav", StringComparison.Ordinal), BusySession.Song + ", \"version\": 2"));

        Assert.Equal(All, Kept.Rendered(report));
        Assert.Contains("c: file raw/c.wav → raw/take 7.wav, the same sound", report.Prints.Single(p => p.Name == "Wet").Because);
        Assert.All(report.Prints, p => Assert.Contains("song: version 1 → 2", p.Because));
        Assert.Contains(report.Profile!.Steps, n => n.Name == "wet (kept)");
        Assert.DoesNotContain(report.Profile!.Steps, n => n.Name is "wet/convolve" or "bus a/saturate");
    }

    [Theory]
    [InlineData("raw/b.wav", "02 90 91", "b: the recording in raw/b.wav has changed")]
    [InlineData("ir/room.wav", "03 90 91", "room: the recording in ir/room.wav has changed")]
    public void One_bit_of_a_raw_track_or_an_impulse_is_seen(string file, string reaches, string because)
    {
        _kept.Print(Chain());
        var path = Path.Combine(_session.Folder, file);
        var samples = TestSession.ReadFile(path);
        samples[0][500] = BitConverter.Int64BitsToDouble(BitConverter.DoubleToInt64Bits(samples[0][500]) ^ (1L << 51));
        _session.Track(file, samples);

        var report = _kept.PrintAsCold(Chain());

        Assert.Equal(reaches.Split(' '), Kept.Rendered(report));
        Assert.All(report.Prints.Where(p => !p.IsUnchanged), p => Assert.Equal([because], p.Because));
    }

    [Fact]
    public void One_chain_written_in_three_ways_has_one_hash_and_is_printed_once()
    {
        const string dense = "{\"chain\":1,\"song\":{\"title\":\"Test\",\"code\":\"Test\",\"rate_hz\":48000},\"tracks\":{\"a\":\"raw/a.wav\",\"b\":\"raw/b.wav\"},\"buses\":{\"one\":{\"from\":{\"a\":-6,\"b\":{\"level_db\":-9,\"pan_pct\":20}},\"through\":[{\"saturate\":{\"drive_db\":3}}]}},\"prints\":[{\"number\":1,\"name\":\"One\",\"bus\":\"one\"}]}";
        const string shuffled = """
            { "prints": [ { "bus": "one", "name": "One", "number": 1 } ],
              "buses": { "one": { "through": [ { "saturate": { "drive_db": 3 } } ], "from": { "a": -6, "b": { "pan_pct": 20, "level_db": -9 } } } },
              "tracks": { "a": "raw/a.wav", "b": "raw/b.wav" },
              "song": { "rate_hz": 48000, "title": "Test", "code": "Test" },
              "chain": 1 }
            """;
        const string chatty = """
            // The same once more, with much to say.
            {
              "chain": 1, // the format
              "song": { "title": "Test", "code": "Test", "version": 1, "rate_hz": 4.8e4, },
              "tracks": { "a": { "file": "raw/a.wav", "polarity": "normal", }, "b": { "file": "raw/b.wav", "level_db": 0 } },
              "impulses": { }, /* none */
              "buses": { "one": { "channels": "auto", "from": { "a": { "level_db": -6.0 }, "b": { "level_db": -9, "pan_pct": 20, "ride": [ ] } },
                "through": [ { "saturate": { "revision": 1, "shape": "soft", "drive_db": 3, "mix_pct": 100, } }, ] } },
              "prints": [ { "number": 1, "name": "One", "bus": "one", "level_db": 0, "optional": false, }, ],
            }
            """;
        var chains = new[] { dense, shuffled, chatty }.Select(text => ChainReader.Parse(text, Path.Combine(_session.Folder, "test.chain.json"))).ToList();

        var first = _kept.PrintAsCold(chains[0]);
        var hash = Ticket.Read(Path.Combine(_session.Prints, "Test_v1.ticket.json")).ChainSha256;

        Assert.Equal(["01", "90"], Kept.Rendered(first));
        Assert.All(chains.Skip(1), chain =>
        {
            Assert.Empty(Kept.Rendered(_kept.PrintAsCold(chain)));
            Assert.Equal(hash, Ticket.Read(Path.Combine(_session.Prints, "Test_v1.ticket.json")).ChainSha256);
            Assert.Equal(hash, Ticket.Read(Path.Combine(_session.Folder, "cold", "Test_v1.ticket.json")).ChainSha256);
        });
    }

    [Fact]
    public void The_first_ride_in_bars_is_the_only_reason_where_the_tempo_map_was_named_all_along()
    {
        const string ride = "{ \"from_bar\": 1, \"to_bar\": 1, \"db\": 2 }";
        _kept.Print(_session.Chain(BusySession.Body.Replace(ride, "", StringComparison.Ordinal), BusySession.Song));

        var report = _kept.Print(Chain());

        Assert.Equal(["02", "90", "91"], Kept.Rendered(report));
        Assert.All(report.Prints.Where(p => !p.IsUnchanged), p => Assert.Equal(["bus b: b ride bars 1 to 1 +2 dB in 50 ms added"], p.Because));
    }

    [Fact]
    public void Another_tempo_moves_what_hears_it()
    {
        _kept.Print(Chain());
        var path = Path.Combine(_session.Folder, "tempo.json");
        File.WriteAllText(path, File.ReadAllText(path).Replace("240", "200", StringComparison.Ordinal));

        var report = _kept.PrintAsCold(Chain());

        Assert.Equal(["02", "90", "91", "92"], Kept.Rendered(report));
        Assert.Equal(["tempo map: bar 1 1/4 at 240 bpm → bar 1 1/4 at 200 bpm"], report.Prints.Single(p => p.Name == "B").Because);
    }

    [Fact]
    public void Another_length_makes_every_print_again_and_says_so()
    {
        _kept.Print(Chain());
        _session.Track("ir/room.wav", Signals.Hits(60000, 4, 0.9), Signals.Hits(60000, 5, 0.9));

        var report = _kept.PrintAsCold(Chain());

        Assert.Equal(All, Kept.Rendered(report));
        const string longer = "session: length 1 → 2 s, one second longer";
        Assert.All(report.Prints.Where(p => p.Name is "Wet" or "Rough" or "RoughBus"), p => Assert.Equal(["room: the recording in ir/room.wav has changed, 0.104 → 1.250 s long", longer], p.Because));
        Assert.All(report.Prints.Where(p => p.Name is "A" or "B" or "Click"), p => Assert.Equal([longer + "; the sound is the same up to there"], p.Because));
        Assert.DoesNotContain(report.FolderNotes, n => n.Contains("01_A", StringComparison.Ordinal));
        Assert.Contains(report.FolderNotes, n => n.Contains("03_Wet", StringComparison.Ordinal));
    }

    // Frames of the longest track, so that the frames that are needed change with it. In the last two the raw tracks pass a
    // second. The files, which are longer, do not.
    [Theory]
    [InlineData("\"b\": \"raw/b.wav\"", "\"b\": { \"file\": \"raw/b.wav\", \"delay_frames\": 5000 }", "5000", "5009", "02 90 91")]
    [InlineData("\"b\": \"raw/b.wav\"", "\"b\": { \"file\": \"raw/b.wav\", \"delay_frames\": 5009 }", "5009", "5000", "02 90 91")]
    [InlineData("\"delay_ms\": 1.5", "\"delay_frames\": 33999", "33999", "34000", "01 02 90 91")]
    [InlineData("\"delay_ms\": 1.5 }, \"b\": \"raw/b.wav\", \"c\": \"raw/c.wav\"", "\"delay_frames\": 34000 }, \"b\": \"raw/b.wav\", \"c\": { \"file\": \"raw/c.wav\", \"delay_frames\": 35999 }", "34000", "34009", "01 02 90 91")]
    [InlineData("\"delay_ms\": 1.5 }", "\"delay_frames\": 34000 }", "34000", "34009", "01 02 90 91", "1.5")]
    public void A_nudged_track_renders_only_what_it_reaches(string from, string to, string nudgedFrom, string nudgedTo, string reaches, string? tail = null)
    {
        var body = BusySession.Body.Replace(from, to, StringComparison.Ordinal);
        body = tail is null ? body : body.Replace("\"click\": true", $"\"click\": true, \"tail_s\": {tail}", StringComparison.Ordinal);
        var nudged = body.Replace(nudgedFrom, nudgedTo, StringComparison.Ordinal);
        Assert.NotEqual(body, nudged);
        var before = _kept.PrintAsCold(_session.Chain(body, BusySession.Song));

        var report = _kept.PrintAsCold(_session.Chain(nudged, BusySession.Song));

        Assert.Equal(before.Frames, report.Frames);
        Assert.Equal(reaches.Split(' '), Kept.Rendered(report));
        Assert.Equal(
            before.Prints.Where(p => !reaches.Contains($"{p.Number:00}", StringComparison.Ordinal)).Select(p => p.FileSha256),
            report.Prints.Where(p => p.IsUnchanged).Select(p => p.FileSha256));
    }

    [Fact]
    public void A_nudge_past_a_second_is_told_as_longer_where_the_sound_is_the_same()
    {
        var body = BusySession.Body.Replace("\"b\": \"raw/b.wav\"", "\"b\": { \"file\": \"raw/b.wav\", \"delay_frames\": 36400 }", StringComparison.Ordinal);
        _kept.PrintAsCold(_session.Chain(body, BusySession.Song));

        var report = _kept.PrintAsCold(_session.Chain(body.Replace("36400", "36401", StringComparison.Ordinal), BusySession.Song));

        Assert.Equal(2 * TestSession.Rate, report.Frames);
        Assert.Equal(All, Kept.Rendered(report));
        Assert.Equal(["session: length 1 → 2 s, one second longer; the sound is the same up to there"], report.Prints.Single(p => p.Name == "Wet").Because);
        Assert.Equal(["b: delay 36400 frames → 36401 frames", "session: length 1 → 2 s, one second longer"], report.Prints.Single(p => p.Name == "B").Because);
        Assert.Contains("All files 2 s: the raw tracks end at 1.051 s, and no tail rings longer; rounded up to a whole second.", report.Notes);
    }

    [Fact]
    public void Prints_that_end_between_two_seconds_are_told_to_get_longer_only()
    {
        _session.Print(Chain(), new PrintOptions { Settled = new SettledRun(17003, 0, new Dictionary<string, string>(StringComparer.Ordinal)) });

        var report = _kept.PrintAsCold(Chain());

        Assert.Equal(All, Kept.Rendered(report));
        Assert.All(report.Prints, p => Assert.Equal(["session: length 0.354 → 1 s, 0.646 s longer; the sound is the same up to there"], p.Because));
        Assert.Empty(report.FolderNotes);
    }

    [Fact]
    public void A_print_of_another_sound_before_its_old_end_is_not_told_as_longer_only()
    {
        var old = Chain("\"level_db\": -8", "\"level_db\": -9");
        _session.Print(old, new PrintOptions { Settled = new SettledRun(17003, 0, new Dictionary<string, string>(StringComparer.Ordinal)) });
        var path = Path.Combine(_session.Prints, "03_Wet_Test_v1.wav");
        Kept.Flip(path, 0.9);

        var report = _kept.Print(Chain());

        Assert.Equal(["session: length 0.354 → 1 s, 0.646 s longer; 03_Wet_Test_v1.wav held other sound before that, too"], report.Prints.Single(p => p.Name == "Wet").Because);
        Assert.Equal(["bus b: b level −9 → −8 dB (1 dB up)", "session: length 0.354 → 1 s, 0.646 s longer"], report.Prints.Single(p => p.Name == "B").Because);
    }

    [Fact]
    public void A_print_that_got_shorter_is_told_as_the_same_up_to_its_end()
    {
        var body = BusySession.Body.Replace("\"b\": \"raw/b.wav\"", "\"b\": { \"file\": \"raw/b.wav\", \"delay_frames\": 36401 }", StringComparison.Ordinal);
        _kept.PrintAsCold(_session.Chain(body, BusySession.Song));

        var report = _kept.PrintAsCold(_session.Chain(body.Replace("36401", "36400", StringComparison.Ordinal), BusySession.Song));

        Assert.Equal(["session: length 2 → 1 s, one second shorter; the sound is the same up to the new end"], report.Prints.Single(p => p.Name == "Wet").Because);
    }

    [Fact]
    public void A_session_lowered_together_keeps_its_bytes_and_a_new_trim_reaches_all()
    {
        var loud = BusySession.Body.Replace("\"click\": true", "\"click\": true, \"over\": \"lower_together\"", StringComparison.Ordinal).Replace("\"name\": \"A\",", "\"name\": \"A\", \"level_db\": 14,", StringComparison.Ordinal);
        var first = _kept.PrintAsCold(_session.Chain(loud, BusySession.Song));
        Assert.True(first.TrimDb < 0);

        var same = _kept.PrintAsCold(_session.Chain(loud, BusySession.Song));
        var louder = _kept.PrintAsCold(_session.Chain(loud.Replace("\"level_db\": 14", "\"level_db\": 16", StringComparison.Ordinal), BusySession.Song));

        Assert.Empty(Kept.Rendered(same));
        Assert.Empty(same.Profile!.Steps);
        Assert.Equal(["01", "02", "03", "90", "91", "92"], Kept.Rendered(louder));
        Assert.Contains(louder.Prints.Single(p => p.Name == "Wet").Because, b => b.StartsWith("session: all prints lowered together", StringComparison.Ordinal));
    }

    [Fact]
    public void A_print_over_full_scale_is_refused_just_as_without_a_store()
    {
        _kept.Print(Chain());
        var loud = Chain("\"name\": \"A\",", "\"name\": \"A\", \"level_db\": 20,");

        var cold = Assert.Throws<OverloadException>(() => _session.Print(loud, new PrintOptions { OutFolder = Path.Combine(_session.Folder, "cold") }));
        var first = Assert.Throws<OverloadException>(() => _kept.Print(loud));
        var again = Assert.Throws<OverloadException>(() => _kept.Print(loud));

        Assert.Equal(cold.Message, first.Message);
        Assert.Equal(cold.Message, again.Message);
    }

    [Fact]
    public void Some_prints_alone_render_no_other_and_leave_the_rest_for_later()
    {
        _kept.Print(Chain());
        var revised = Chain("\"drive_db\": 3", "\"drive_db\": 5");

        var some = _kept.Print(revised, new PrintOptions { Only = ["A", "Wet"] });
        Assert.False(File.Exists(Path.Combine(_session.Prints, "Test_v1.ticket.json")));
        var rest = _kept.PrintAsCold(revised);

        Assert.Equal(["01"], Kept.Rendered(some));
        Assert.Equal(["02", "90", "91"], Kept.Rendered(rest));
    }

    [Fact]
    public void An_exact_excerpt_takes_from_the_store_and_keeps_nothing_in_it()
    {
        _kept.Print(Chain());
        var before = Directory.GetFiles(_kept.Store, "*", SearchOption.AllDirectories);
        var excerpt = new PrintOptions { FromS = 0.05, ToS = 0.2, IsExact = true, OutFolder = Path.Combine(_session.Folder, "excerpt") };

        var report = _kept.PrintAsCold(Chain("\"drive_db\": 3", "\"drive_db\": 5"), excerpt);

        Assert.Contains(report.Profile!.Steps, n => n.Name == "wet (kept)");
        Assert.False(report.LookedForChanges);
        Assert.Equal(before, Directory.GetFiles(_kept.Store, "*", SearchOption.AllDirectories));
    }

    [Fact]
    public void Asked_for_anew_everything_is_rendered_and_the_store_serves_the_next_run()
    {
        _kept.Print(Chain());

        var anew = _kept.PrintAsCold(Chain(), store: new StoreOptions(_kept.Store) { Anew = true });
        var next = _kept.PrintAsCold(Chain());

        Assert.Equal(All, Kept.Rendered(anew));
        Assert.All(anew.Prints, p => Assert.Equal(["asked for with --anew"], p.Because));
        Assert.Empty(Kept.Rendered(next));
    }

    [Fact]
    public void Some_prints_asked_for_anew_leave_what_is_known_of_the_others()
    {
        _kept.Print(Chain());

        var some = _kept.Print(Chain(), new PrintOptions { Only = ["A"] }, new StoreOptions(_kept.Store) { Anew = true });
        var next = _kept.PrintAsCold(Chain());

        Assert.Equal(["01"], Kept.Rendered(some));
        Assert.Empty(Kept.Rendered(next));
    }

    [Fact]
    public void Another_folder_is_printed_from_what_the_store_holds()
    {
        _kept.Print(Chain());

        var report = _kept.PrintAsCold(Chain(), new PrintOptions { OutFolder = Path.Combine(_session.Folder, "mixer") });

        Assert.Equal(All, Kept.Rendered(report));
        Assert.DoesNotContain(report.Profile!.Steps, n => n.Name is "wet/convolve" or "bus a/saturate");
    }

    [Fact]
    public void A_tail_that_a_compressor_brings_up_is_as_long_as_without_a_store()
    {
        _session.Track("raw/hit.wav", [.. Enumerable.Range(0, 6000).Select(n => 0.5 * Math.Exp(-n / 300.0) * Math.Sin(n))]);
        const string body = """
            "tracks": { "hit": "raw/hit.wav" }, "impulses": { "room": { "file": "ir/room.wav" } },
            "buses": { "far": { "from": { "hit": 0 }, "through": [
              { "eq": { "bands": [ { "bell": { "freq_hz": 60, "gain_db": 18, "q": 12 } } ] } },
              { "compress": { "threshold_db": -60, "ratio": 100, "attack_ms": 0.1, "release_ms": 20, "make_up_db": 36 } } ] },
              "near": { "from": { "hit": -20 } } },
            "prints": [ { "number": 1, "name": "Far", "bus": "far", "level_db": -30 }, { "number": 2, "name": "Near", "bus": "near" } ]
            """;
        _kept.PrintAsCold(_session.Chain(body));

        var same = _kept.PrintAsCold(_session.Chain(body));
        var near = _kept.PrintAsCold(_session.Chain(body.Replace("\"hit\": -20", "\"hit\": -21", StringComparison.Ordinal)));

        Assert.Empty(Kept.Rendered(same));
        Assert.Equal(["02", "90"], Kept.Rendered(near));
    }

    private Chain Chain() => BusySession.Chain(_session);

    private Chain Chain(string from, string to)
    {
        Assert.Contains(from, BusySession.Body, StringComparison.Ordinal);
        return _session.Chain(BusySession.Body.Replace(from, to, StringComparison.Ordinal), BusySession.Song);
    }
}
