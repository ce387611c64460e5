using DrumPrint.Audio;
using DrumPrint.Printing;
using DrumPrint.Printing.Runs;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

public sealed class SessionPrinterTests : IDisposable
{
    private const double HalfLsb24 = 0.5 / (1 << 23);
    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_file_that_another_track_names_is_not_offered_for_one_that_is_lost()
    {
        using var session = new TestSession();
        session.Track("raw/03_KickSub.wav", new double[100]);
        session.Track("raw/02_KickOuter.wav", new double[100]);
        string Body(string outside) => $$""""
            "tracks": { "out": "raw/{{outside}}", "sub": "raw/03_KickSub.wav" },
            "buses": { "kick": { "from": { "out": 0, "sub": 0 } } },
            "prints": [ { "number": 1, "name": "Kick", "bus": "kick" } ]
            """";

        var near = Assert.Throws<InputException>(() => session.Print(session.Chain(Body("02_KickOut.wav"))));
        var taken = Assert.Throws<InputException>(() => session.Print(session.Chain(Body("04_KickSub.wav"))));

        Assert.Contains("Did you mean 02_KickOuter.wav?", near.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("03_KickSub.wav", taken.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_kick_of_two_mics_is_their_sum_at_the_levels_of_the_chain()
    {
        var inside = Signals.Hits(24000, 1);
        var outside = Signals.Hits(24000, 2);
        _session.Track("in.wav", inside);
        _session.Track("out.wav", outside);
        var chain = _session.Chain("""
            "tracks": { "in": "in.wav", "out": { "file": "out.wav", "polarity": "inverted" } },
            "buses": { "kick": { "from": { "in": 0, "out": -6 } } },
            "prints": [ { "number": 1, "name": "Kick", "bus": "kick", "level_db": -3 } ]
            """);

        _session.Print(chain);

        var kick = Assert.Single(_session.Read("01_Kick_Test_v1.wav"));
        var level = Math.Pow(10, -3 / 20.0);
        var down = Math.Pow(10, -6 / 20.0);
        Assert.All(Enumerable.Range(0, 24000), n => Assert.Equal(level * (inside[n] - (down * outside[n])), kick[n], HalfLsb24 + Tolerance.Rounding));
    }

    [Fact]
    public void Every_print_starts_at_the_first_frame_and_ends_at_the_whole_second_after_the_longest_tail()
    {
        _session.Track("a.wav", Signals.Hits(24000, 1));
        _session.Track("b.wav", Signals.Hits(30000, 2));
        _session.Track("ir.wav", Signals.Hits(25000, 3, 0.9));
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav", "b": "b.wav" },
            "impulses": { "room": { "file": "ir.wav" } },
            "buses": { "bus a": { "from": { "a": 0 } }, "wet": { "from": { "b": -12 }, "through": [ { "convolve": { "impulse": "room" } } ] } },
            "prints": [ { "number": 1, "name": "Dry", "bus": "bus a" }, { "number": 2, "name": "Wet", "bus": "wet" } ]
            """);

        var report = _session.Print(chain);

        Assert.Equal(3, report.Prints.Count);
        Assert.Equal(2 * TestSession.Rate, report.Frames);
        Assert.All(_session.Files().Where(f => f.EndsWith(".wav", StringComparison.Ordinal)), f => Assert.Equal(report.Frames, _session.Read(f)[0].Length));
        Assert.Equal(0, report.Prints.Single(p => p.Name == "Dry").TailS);
        Assert.True(report.Prints.Single(p => p.Name == "Wet").TailS > 0.1);
    }

    [Theory]
    [InlineData("24", -120)]
    [InlineData("\"32f\"", -140)]
    public void Playing_prints_at_unity_rebuild_the_rough(string bits, double expectedDbfs)
    {
        _session.Track("a.wav", Signals.Hits(24000, 1));
        _session.Track("b.wav", Signals.Hits(24000, 2), Signals.Hits(24000, 3));
        var chain = _session.Chain($$"""
            "tracks": { "a": "a.wav", "b": "b.wav" },
            "buses": { "bus a": { "from": { "a": -7 } }, "bus b": { "from": { "b": -9 }, "through": [ { "saturate": { "drive_db": 6 } } ] }, "c": { "from": { "a": -12, "b": -14 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a" }, { "number": 2, "name": "B", "bus": "bus b" }, { "number": 3, "name": "C", "bus": "c", "optional": true } ],
            "output": { "bits": {{bits}} }
            """);

        var report = _session.Print(chain);

        Assert.InRange(report.NullPeakDbfs!.Value, double.NegativeInfinity, expectedDbfs);
        var a = _session.Read("01_A_Test_v1.wav")[0];
        var b = _session.Read("02_B_Test_v1.wav");
        var rough = _session.Read("90_RoughPreBus_Test_v1.wav");
        var left = Enumerable.Range(0, a.Length).Max(n => Math.Abs(a[n] + b[0][n] - rough[0][n]));
        Assert.InRange(20 * Math.Log10(left), double.NegativeInfinity, expectedDbfs);
        Assert.True(rough[0].Max() > 0.05);
    }

    [Fact]
    public void Threads_and_block_size_never_change_a_byte()
    {
        BusyTracks();
        var chain = _session.Chain(BusyBody);
        var expected = _session.Print(chain, new PrintOptions { Threads = 1, OutFolder = Path.Combine(_session.Folder, "one") });

        foreach (var (threads, block) in new[] { (2, 4096), (8, 4096), (2, 333), (1, 37), (8, 16384), (3, 100_000) })
        {
            var report = _session.Print(chain, new PrintOptions { Threads = threads, BlockFrames = block, OutFolder = Path.Combine(_session.Folder, "other") });

            Assert.Equal(expected.Prints.Select(p => p.FileSha256), report.Prints.Select(p => p.FileSha256));
        }
    }

    [Theory]
    [InlineData("a,90", "01_A_Test_v1.wav 90_RoughPreBus_Test_v1.wav")]
    [InlineData("1, rough", "01_A_Test_v1.wav 90_RoughPreBus_Test_v1.wav")]
    public void Prints_are_chosen_by_number_name_or_the_word_rough_with_commas_between(string only, string files)
    {
        BusyTracks();

        _session.Print(_session.Chain(BusyBody), new PrintOptions { Only = [only] });

        Assert.Equal(files.Split(' '), _session.Files());
    }

    [Fact]
    public void A_print_made_alone_is_the_print_of_the_whole_session()
    {
        BusyTracks();
        var chain = _session.Chain(BusyBody);
        var whole = _session.Print(chain);

        var alone = _session.Print(chain, new PrintOptions { Only = ["a"], OutFolder = Path.Combine(_session.Folder, "alone") });

        Assert.Equal(["01_A_Test_v1.wav"], _session.Files("alone"));
        Assert.Equal(whole.Prints[0].FileSha256, Assert.Single(alone.Prints).FileSha256);
    }

    [Fact]
    public void An_excerpt_is_a_slice_of_the_whole_print_even_when_dithered()
    {
        BusyTracks();
        var chain = _session.Chain(BusyBody + ", \"output\": { \"bits\": 16 }");
        var report = _session.Print(chain);

        _session.Print(chain, new PrintOptions { FromS = 0.1, ToS = 0.3 });

        Assert.Empty(report.Findings);

        var whole = _session.Read("02_B_Test_v1.wav");
        var part = TestSession.ReadFile(Path.Combine(_session.Folder, "excerpt", "02_B_Test_v1_0m00s100-0m00s300.wav"));
        Assert.Equal(9600, part[0].Length);
        Assert.Equal(whole[0][4800..14400], part[0]);
        Assert.Equal(whole[1][4800..14400], part[1]);
    }

    [Fact]
    public void A_print_above_full_scale_is_refused_with_the_level_that_fits_and_nothing_is_written()
    {
        _session.Track("a.wav", Signals.Sine(4800, 1000, 1));
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav" }, "buses": { "bus a": { "from": { "a": 0 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a", "level_db": 2.34 } ]
            """);

        var refused = Assert.Throws<OverloadException>(() => _session.Print(chain));

        Assert.Contains("01_A_Test_v1.wav peaks 2.34 dB above 0 dBFS; level_db 0.0 would fit", refused.Message, StringComparison.Ordinal);
        Assert.Empty(_session.Files());
    }

    [Fact]
    public void Lowering_together_keeps_the_balance()
    {
        _session.Track("a.wav", Signals.Sine(4800, 1000, 1));
        _session.Track("b.wav", Signals.Sine(4800, 1000, 0.1));
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav", "b": "b.wav" }, "buses": { "bus a": { "from": { "a": 0 } }, "bus b": { "from": { "b": 0 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a", "level_db": 2.34 }, { "number": 2, "name": "B", "bus": "bus b" } ],
            "output": { "over": "lower_together" }
            """);

        var report = _session.Print(chain);

        // The rough is the loudest: 20 log10(10^(2.34/20) + 0.1) = 2.98 dB over.
        Assert.Equal(-3, report.TrimDb);
        Assert.Equal(2.34 - 3, report.Prints[0].PeakDbfs, 0.01);
        Assert.Equal(-20 - 3, report.Prints[1].PeakDbfs, 0.01);
        Assert.Contains(report.Notes, n => n.Contains("lowered together by 3.0 dB", StringComparison.Ordinal));
        Assert.InRange(report.NullPeakDbfs!.Value, double.NegativeInfinity, -120);
    }

    [Fact]
    public void All_missing_and_unfit_tracks_are_named_at_once()
    {
        _session.Track("slow.wav", 44100, Signals.Sine(4410, 1000, 0.1));
        var chain = _session.Chain("""
            "tracks": { "a": "gone.wav", "b": "slow.wav", "c": "also-gone.wav" }, "buses": { "bus a": { "from": { "a": 0, "b": 0, "c": 0 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ]
            """);

        var refused = Assert.Throws<InputException>(() => _session.Print(chain));

        Assert.Equal(3, refused.Problems.Count);
        Assert.Contains("gone.wav", refused.Problems[0], StringComparison.Ordinal);
        Assert.Contains("44100 Hz, the session at 48000 Hz", refused.Problems[1], StringComparison.Ordinal);
        Assert.Empty(_session.Files());
    }

    [Fact]
    public void Tracks_that_are_all_at_another_rate_are_one_mistake()
    {
        _session.Track("a.wav", 44100, Signals.Hits(4800, 1));
        _session.Track("b.wav", 44100, Signals.Hits(4800, 2));
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav", "b": "b.wav" }, "buses": { "all": { "from": { "a": 0, "b": 0 } } },
            "prints": [ { "number": 1, "name": "All", "bus": "all" } ]
            """);

        var refused = Assert.Throws<InputException>(() => _session.Print(chain));

        Assert.Equal(
            $"{chain.Path}: song.rate_hz is 48000, but every one of the 2 tracks is at 44100 Hz. Set rate_hz to 44100, or bring the files at 48000 Hz, or add \"convert\": true to each track to have it resampled.",
            Assert.Single(refused.Problems));
    }

    [Fact]
    public void One_track_of_several_at_another_rate_is_a_mistake_of_that_track()
    {
        _session.Track("a.wav", 44100, Signals.Hits(4800, 1));
        _session.Track("b.wav", Signals.Hits(4800, 2));
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav", "b": "b.wav" }, "buses": { "all": { "from": { "a": 0, "b": 0 } } },
            "prints": [ { "number": 1, "name": "All", "bus": "all" } ]
            """);

        var refused = Assert.Throws<InputException>(() => _session.Print(chain));

        Assert.Contains("track 'a'", Assert.Single(refused.Problems), StringComparison.Ordinal);
    }

    [Fact]
    public void A_track_that_says_convert_is_resampled_in_place()
    {
        _session.Track("slow.wav", 44100, [.. new[] { Enumerable.Range(0, 44100).Select(n => 0.5 * Math.Sin(2 * Math.PI * 1000 * n / 44100)).ToArray() }]);
        var chain = _session.Chain("""
            "tracks": { "a": { "file": "slow.wav", "convert": true } }, "buses": { "bus a": { "from": { "a": 0 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ]
            """);

        var report = _session.Print(chain);

        Assert.Contains("Track 'a' was resampled from 44100 to 48000 Hz.", report.Notes);
        var a = _session.Read("01_A_Test_v1.wav")[0];
        Assert.Equal(48000, a.Length);
        Assert.All(Enumerable.Range(2000, 44000), n => Assert.Equal(0.5 * Math.Sin(2 * Math.PI * 1000 * n / 48000), a[n], 1e-6));
    }

    [Fact]
    public void Stopping_a_run_leaves_no_file()
    {
        BusyTracks();
        var chain = _session.Chain(BusyBody);
        using var stop = new CancellationTokenSource();

        Assert.ThrowsAny<OperationCanceledException>(() => SessionPrinter.Print(chain, new PrintOptions { BlockFrames = 256 }, new StopAt(stop), stop.Token));

        Assert.Empty(_session.Files());
    }

    [Theory]
    [InlineData(null, null, "0m00s100-0m00s200")]
    [InlineData(1.4, 1.8, "bar1.4-bar1.8")]
    [InlineData(1.4, null, "bar1.4-0m00s200")]
    [InlineData(null, 1.8, "0m00s100-bar1.8")]
    public void An_excerpt_is_named_as_it_was_asked_for(double? fromBar, double? toBar, string expected)
    {
        BusyTracks();

        var report = _session.Print(_session.Chain(BusyBody), new PrintOptions { FromS = 0.1, ToS = 0.2, FromBar = fromBar, ToBar = toBar });

        Assert.All(report.Prints, p => Assert.EndsWith($"_Test_v1_{expected}.wav", p.FileName, StringComparison.Ordinal));
    }

    [Fact]
    public void Raw_tracks_are_never_touched()
    {
        BusyTracks();
        var path = Path.Combine(_session.Folder, "a.wav");
        var before = FileHash.Sha256(path);
        File.SetAttributes(path, FileAttributes.ReadOnly);

        _session.Print(_session.Chain(BusyBody));

        File.SetAttributes(path, FileAttributes.Normal);
        Assert.Equal(before, FileHash.Sha256(path));
    }

    [Theory]
    [InlineData("raw", "track 'a' (a.wav)")]
    [InlineData("raw/../ir/", "impulse 'room' (room.wav)")]
    public void Prints_do_not_go_among_raw_tracks_and_impulses(string folder, string expected)
    {
        _session.Track("raw/a.wav", Signals.Hits(4800, 1));
        _session.Track("ir/room.wav", Signals.Hits(480, 2));
        var chain = _session.Chain("""
            "tracks": { "a": "raw/a.wav" }, "impulses": { "room": { "file": "ir/room.wav" } }, "buses": { "bus a": { "from": { "a": 0 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ]
            """);

        var refused = Assert.Throws<UsageException>(() => _session.Print(chain, new PrintOptions { OutFolder = Path.Combine(_session.Folder, folder) }));

        Assert.StartsWith("--out ", refused.Message, StringComparison.Ordinal);
        Assert.Contains($"this folder holds {expected}", refused.Message, StringComparison.Ordinal);
        Assert.Equal(["a.wav"], _session.Files("raw"));
        Assert.Equal(["room.wav"], _session.Files("ir"));
    }

    [Fact]
    public void A_print_never_replaces_a_track_it_is_made_from()
    {
        _session.Track("prints/01_A_Test_v1.wav", Signals.Hits(4800, 1));
        var path = Path.Combine(_session.Prints, "01_A_Test_v1.wav");
        var before = FileHash.Sha256(path);
        var chain = _session.Chain("""
            "tracks": { "a": "prints/01_A_Test_v1.wav" }, "buses": { "bus a": { "from": { "a": 0 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ]
            """);

        var refused = Assert.Throws<UsageException>(() => _session.Print(chain));

        Assert.Contains("prints do not go among raw tracks", refused.Message, StringComparison.Ordinal);
        Assert.Equal(before, FileHash.Sha256(path));
        Assert.Equal(["01_A_Test_v1.wav"], _session.Files());
    }

    [Fact]
    public void The_ticket_names_every_input_and_print_by_hash()
    {
        BusyTracks();

        var report = _session.Print(_session.Chain(BusyBody));

        var ticket = File.ReadAllText(Path.Combine(_session.Prints, "Test_v1.ticket.json"));
        Assert.All(report.Prints, p => Assert.Contains(p.AudioSha256, ticket, StringComparison.Ordinal));
        using var reader = AudioReader.Open(Path.Combine(_session.Folder, "a.wav"));
        reader.Skip(reader.Info.Frames);
        Assert.Contains(reader.AudioSha256, ticket, StringComparison.Ordinal);
    }

    [Fact]
    public void Measured_tails_end_once_a_print_stays_90_dB_below_its_peak_and_files_at_the_second_after()
    {
        // An impulse through a decay of 6 dB for every 480 frames: 90 dB down after 7200 frames.
        _session.Track("a.wav", Signals.Impulse(1000, 999));
        _session.Track("ir.wav", [.. new[] { Enumerable.Range(0, 20000).Select(n => Math.Pow(10, -6.0 * n / 480 / 20)).ToArray() }]);
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav" }, "impulses": { "decay": { "file": "ir.wav" } },
            "buses": { "bus a": { "from": { "a": 0 }, "through": [ { "convolve": { "impulse": "decay", "gain": "peak" } } ] } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ]
            """);

        var report = _session.Print(chain);

        // Tails are counted in windows of 10 ms, so one window more at most.
        Assert.InRange(report.Prints[0].TailS * TestSession.Rate, 7200 - 1, 7200 + 480);
        Assert.Equal(TestSession.Rate, report.Frames);
    }

    [Fact]
    public void A_file_goes_on_to_its_whole_second_with_what_still_sounds()
    {
        // What is 90 dB down after 7200 frames is still in the file at 12000, 150 dB down.
        _session.Track("a.wav", Signals.Impulse(1000, 999));
        _session.Track("ir.wav", [.. new[] { Enumerable.Range(0, 20000).Select(n => Math.Pow(10, -6.0 * n / 480 / 20)).ToArray() }]);
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav" }, "impulses": { "decay": { "file": "ir.wav" } },
            "buses": { "bus a": { "from": { "a": 0 }, "through": [ { "convolve": { "impulse": "decay", "gain": "peak" } } ] } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ], "output": { "bits": "32f" }
            """);

        _session.Print(chain);
        var print = _session.Read("01_A_Test_v1.wav")[0];

        Assert.NotEqual(0, print[999 + 12000]);
        Assert.Equal(Math.Pow(10, -150.0 / 20), print[999 + 12000] / print[999], 1e-9);
    }

    [Theory]
    [InlineData("\"tail_s\": 0", 1000, 1)]
    [InlineData("\"tail_s\": 0", 48000, 1)]
    [InlineData("\"tail_s\": 0", 48001, 2)]
    [InlineData("\"tail_s\": 1", 48000, 2)]
    [InlineData("\"tail_s\": 0.75", 24000, 2)]
    [InlineData("\"tail_cap_s\": 3", 48000, 1)]
    [InlineData("\"tail_cap_s\": 3", 48001, 2)]
    public void A_session_is_a_whole_number_of_seconds_long_and_an_excerpt_as_long_as_asked_for(string output, int rawFrames, int seconds)
    {
        _session.Track("a.wav", Signals.Hits(rawFrames, 1));
        var chain = _session.Chain($$"""
            "tracks": { "a": "a.wav" }, "buses": { "bus a": { "from": { "a": 0 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ], "output": { {{output}} }
            """);

        Assert.Equal(seconds * TestSession.Rate, _session.Print(chain).Frames);
        Assert.Equal(4321, _session.Print(chain, new PrintOptions { FromS = 0, ToS = 4321.0 / TestSession.Rate }).Frames);
    }

    [Fact]
    public void A_tail_longer_than_the_cap_is_cut_at_the_next_second_and_said()
    {
        _session.Track("a.wav", Signals.Impulse(1000, 999));
        _session.Track("ir.wav", Signals.Sine(60000, 100, 0.5));
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav" }, "impulses": { "long": { "file": "ir.wav" } },
            "buses": { "bus a": { "from": { "a": 0 }, "through": [ { "convolve": { "impulse": "long", "gain": "peak" } } ] } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ], "output": { "tail_cap_s": 0.5 }
            """);

        var report = _session.Print(chain);

        Assert.Equal(TestSession.Rate, report.Frames);
        Assert.Contains(report.Findings, f => f.Contains("tail_cap_s", StringComparison.Ordinal));
    }

    private const string BusyBody = """
        "tracks": { "a": "a.wav", "b": { "file": "b.wav", "delay_ms": 1.5 } },
        "impulses": { "room": { "file": "ir.wav" } },
        "buses": {
          "bus a": { "from": { "a": -6 }, "through": [ { "gate": { "look_ahead_ms": 1, "range_db": -20 } }, { "saturate": { "drive_db": 3 } } ] },
          "bus b": { "from": { "b": { "level_db": -8, "pan_pct": 30 }, "bus a": -12 },
                 "through": [ { "compress": { "ratio": 4, "key": "bus a" } }, { "eq": { "bands": [ { "high_pass": { "freq_hz": 80 } } ] } } ] },
          "wet": { "from": { "bus a": -10, "bus b": -10 }, "through": [ { "convolve": { "impulse": "room" } }, { "duck": { "key": "bus a", "amount_db": 4 } } ] } },
        "prints": [ { "number": 1, "name": "A", "bus": "bus a" }, { "number": 2, "name": "B", "bus": "bus b" }, { "number": 3, "name": "Wet", "bus": "wet" } ],
        "drum_bus": { "through": [ { "compress": { "ratio": 2 } }, { "tape": { } } ] }
        """;

    private void BusyTracks()
    {
        _session.Track("a.wav", Signals.Hits(24000, 1));
        _session.Track("b.wav", Signals.Hits(24000, 2));
        _session.Track("ir.wav", Signals.Hits(9000, 3), Signals.Hits(9000, 4));
    }

    private sealed class StopAt(CancellationTokenSource stop) : IProgress<PrintProgress>
    {
        public void Report(PrintProgress value) => stop.Cancel();
    }
}
