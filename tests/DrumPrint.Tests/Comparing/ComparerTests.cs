using System.Collections.Concurrent;
using DrumPrint.Audio;
using DrumPrint.Comparing;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Dsp;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Printing;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Comparing;

public sealed class ComparerTests : IDisposable
{
    private const int Rate = TestSession.Rate;

    // Samples below 2 rounded to 24 significant bits, twice.
    private const double FloatRounding = 2.5e-7;

    private const string Buses = """
        "tracks": { "low drum": "raw/low.wav", "high drum": "raw/high.wav" },
        "buses": {
          "low": { "from": { "low drum": -2 } },
          "high": { "from": { "high drum": -4 } },
          "impact": { "from": { "low": -3, "high": -5 }, "through": [
            { "eq": { "bands": [ { "low_shelf": { "freq_hz": 90, "gain_db": 6 } } ] } },
            { "compress": { "threshold_db": -30, "ratio": 8, "make_up_db": 6 } } ] },
          "crush": { "from": { "impact": 0 } } },
        "prints": [ { "number": 1, "name": "Low", "bus": "low", "level_db": -6 }, { "number": 2, "name": "High", "bus": "high", "level_db": -6 },
                    { "number": 3, "name": "Impact", "bus": "impact", "level_db": -9 } ],
        "drum_bus": { "through": [ { "compress": { "ratio": 2, "threshold_db": -20 } } ] }
        """;

    private static readonly double[] LowDrum = [.. Signals.Sine(4 * Rate, 60, 0.6).Zip(Music.Hits(4, every: 0.5), (x, y) => x * Math.Abs(y))];
    private static readonly double[] HighDrum = Music.Hits(4, seed: 3, every: 0.5, from: 0.35);

    private readonly TestSession _session = new();

    public ComparerTests()
    {
        _session.Track("raw/low.wav", LowDrum);
        _session.Track("raw/high.wav", HighDrum);
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_file_against_itself_is_identical_and_the_verdict_says_so()
    {
        var report = Comparer.Compare(File("raw/high.wav"), File("raw/high.wav"), new ComparisonOptions());

        Assert.True(report.Main.Null.IsIdentical && report.Main.IsWholeIdentical == true);
        Assert.Equal(double.NegativeInfinity, report.Main.Null.RmsDb);
        Assert.StartsWith("A and B are identical", report.Main.Verdict, StringComparison.Ordinal);
        Assert.Contains("−∞", report.Main.Verdict, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(44100, 12.35)]
    [InlineData(88200, 13.0007)]
    public void A_passage_is_found_at_rates_that_do_not_divide_by_a_thousand(int rate, double seconds)
    {
        var frames = (int)(seconds * rate);
        var path = Path.Combine(_session.Folder, "odd.wav");
        using (var writer = WaveWriter.Create(path, new AudioFormat(rate, 1), SampleEncoding.Pcm24, null, frames))
        {
            writer.Write(new AudioBlock([Signals.Hits(frames, 5)], 0, frames));
            writer.Finish(frames);
            writer.Publish();
        }

        Assert.True(Comparer.Compare(path, path, new ComparisonOptions()).Main.Null.IsIdentical);
    }

    [Fact]
    public void A_chain_against_itself_is_identical()
    {
        var chain = Chain("a", Buses);

        var report = Comparer.Compare(chain, chain, new ComparisonOptions());

        Assert.Equal("90 RoughPreBus", report.Main.Title);
        Assert.True(report.Main.Null.IsIdentical);
        Assert.Empty(report.Others);
        Assert.Empty(report.Recipe);
    }

    [Fact]
    public void New_names_are_told_as_such_and_do_not_change_the_sound()
    {
        var renamed = Buses
            .Replace("\"impact\"", "\"crush hour\"", StringComparison.Ordinal)
            .Replace("\"high drum\"", "\"rack_drum\"", StringComparison.Ordinal)
            .Replace("\"name\": \"High\"", "\"name\": \"Rack\"", StringComparison.Ordinal);

        var report = Comparer.Compare(Chain("a", Buses), Chain("b", renamed), new ComparisonOptions());

        Assert.True(report.Main.Null.IsIdentical);
        Assert.Contains(report.Notes, n => n.Contains("rendered once", StringComparison.Ordinal));
        Assert.DoesNotContain(report.Notes, n => n.Contains("only", StringComparison.Ordinal));
        Assert.Equal(["rack_drum: name high drum → rack_drum", "crush hour: name impact → crush hour", "02 Rack: name High → Rack"], report.Recipe);
    }

    [Fact]
    public void Settings_that_differ_are_told_as_far_as_they_reach_the_print_in_front()
    {
        var changed = Buses
            .Replace("\"low drum\": -2", "\"low drum\": -3", StringComparison.Ordinal)
            .Replace("\"high drum\": -4", "\"high drum\": -5", StringComparison.Ordinal);

        var report = Comparer.Compare(Chain("a", Buses), Chain("b", changed + ", \"output\": { \"tail_s\": 1 }"), new ComparisonOptions { Print = "Low" });

        Assert.Equal(["low: low drum level −2 → −3 dB (1 dB down)"], report.Recipe);
    }

    [Fact]
    public void Another_tempo_under_the_same_name_is_another_sound_where_a_ride_counts_in_bars()
    {
        var body = Buses.Replace("\"low drum\": -2", "\"low drum\": { \"level_db\": -2, \"ride\": [ { \"from_bar\": 2, \"to_bar\": 3, \"db\": -6 } ] }", StringComparison.Ordinal);
        string InFolder(string folder, int bpm)
        {
            Directory.CreateDirectory(File(folder));
            System.IO.File.WriteAllText(File($"{folder}/tempo.json"), $$"""{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": {{bpm}} } ], "last_bar": 4 }""");
            var path = File($"{folder}/song.chain.json");
            var text = body.Replace("raw/", "../raw/", StringComparison.Ordinal);
            System.IO.File.WriteAllText(path, $$"""{ "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": {{Rate}}, "tempo": "tempo.json" }, {{text}} }""");
            return path;
        }

        var report = Comparer.Compare(InFolder("one", 240), InFolder("other", 300), new ComparisonOptions { Print = "Low" });

        Assert.False(report.Main.Null.IsIdentical);
        Assert.Equal(["tempo map: bar 1 4/4 at 240 bpm → bar 1 4/4 at 300 bpm"], report.Recipe);
    }

    [Fact]
    public void What_does_not_reach_the_sound_is_no_difference()
    {
        var report = Comparer.Compare(Chain("a", Buses), Chain("b", Buses + ", \"output\": { \"bits\": 16, \"tail_s\": 1 }"), new ComparisonOptions());

        Assert.True(report.Main.Null.IsIdentical);
        Assert.Contains(report.Notes, n => n.Contains("rendered once", StringComparison.Ordinal));
    }

    [Fact]
    public void The_same_samples_in_another_word_length_are_not_said_to_differ_elsewhere()
    {
        Write("a.wav", SampleEncoding.Pcm16, Music.Hits(1));
        Write("b.wav", SampleEncoding.Pcm24, TestSession.ReadFile(File("a.wav")));

        var main = Comparer.Compare(File("a.wav"), File("b.wav"), new ComparisonOptions()).Main;

        Assert.True(main.Null.IsIdentical);
        Assert.Null(main.IsWholeIdentical);
    }

    [Theory]
    [InlineData(SampleEncoding.Pcm24, 2.5, "turned up by 2.50 dB, and nothing else")]
    [InlineData(SampleEncoding.Pcm16, -1.25, "turned down by 1.25 dB, and nothing else")]
    public void A_pure_gain_change_is_called_just_that(SampleEncoding encoding, double gainDb, string words)
    {
        Write("a.wav", encoding, Music.Hits(3).Times(0.5));
        Write("b.wav", encoding, Music.Hits(3).Times(0.5 * Music.Gain(gainDb)));

        var report = Comparer.Compare(File("a.wav"), File("b.wav"), new ComparisonOptions());

        Assert.True(report.Main.Null.IsPureGain);
        Assert.Contains(words, report.Main.Verdict, StringComparison.Ordinal);
        Assert.Equal(-gainDb, report.Main.Matching.OffsetDb, 0.001);
    }

    // A tone of equal level doubles the energy, which is 3.01 dB; one of a third of the level adds a ninth of that.
    [Theory]
    [InlineData(0.3, 0.0, "makes the whole 3.0 dB stronger in mean level; all of the energy it adds lies below 120 Hz.")]
    [InlineData(0.3, 0.1, "makes the whole 3.2 dB stronger in mean level; 90 % of the energy it adds lies below 120 Hz.")]
    [InlineData(0.0, 0.0, "keeps the mean level of the whole within 0.1 dB.")]
    public void What_a_part_adds_is_told_in_decibels_of_the_whole_and_in_shares_of_energy(double low, double high, string words) =>
        Assert.Equal($"At true level 'part' {words}", Told(low, high, 0.3));

    [Fact]
    public void A_part_that_takes_away_in_one_region_and_adds_in_another_has_no_share() =>
        Assert.Equal(
            "At true level 'part' makes the whole 1.1 dB weaker in mean level: it adds energy below 120 Hz and takes some away from 120 Hz to 2 kHz.",
            Told(0.15, 0, 0.219));

    [Fact]
    public void The_louder_side_is_turned_down_and_said_to_be_so()
    {
        var (x, y) = (Music.Hits(3).Times(0.5), Music.Hits(3).Dulled(0.8).Times(0.9));
        Write("a.wav", SampleEncoding.Float32, x);
        Write("b.wav", SampleEncoding.Float32, y);

        var (softer, louder) = (Comparer.Compare(File("a.wav"), File("b.wav"), new ComparisonOptions()).Main, Comparer.Compare(File("b.wav"), File("a.wav"), new ComparisonOptions()).Main);

        var by = Words.Number(softer.Matching.OffsetDb < 0 ? -softer.Matching.OffsetDb : double.NaN, 2);
        Assert.Contains($"B is {by} LU louder than A (gated loudness), so B is turned down by {by} dB.", softer.Verdict, StringComparison.Ordinal);
        Assert.Contains($"B is {by} LU softer than A (gated loudness), so A is turned down by {by} dB.", louder.Verdict, StringComparison.Ordinal);
        Assert.Equal((0.0, softer.Matching.OffsetDb), (softer.Matching.LevelOfADb, softer.Matching.LevelOfBDb));
        Assert.Equal(softer.Null.PeakDbfs, louder.Null.PeakDbfs, CompareTolerance.RatioDb);
        Assert.Equal(softer.ThirdOctaves.Select(b => b.ADb), louder.ThirdOctaves.Select(b => b.BDb));
    }

    [Fact]
    public void A_trim_by_hand_is_told_in_what_is_turned_down()
    {
        Write("a.wav", SampleEncoding.Float32, Music.Hits(3));
        Write("b.wav", SampleEncoding.Float32, Music.Hits(3).Dulled(0.9));

        var main = Comparer.Compare(File("a.wav"), File("b.wav"), new ComparisonOptions { TrimDb = 2.5 }).Main;

        Assert.Contains($"A is turned down by {Words.Number(main.Matching.OffsetDb + 2.5, 2)} dB, +2.50 dB given to B by hand in that.", main.Verdict, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_unrelated_sounds_the_verdict_says_that_their_null_says_little()
    {
        Write("a.wav", SampleEncoding.Float32, Music.Hits(3));
        Write("b.wav", SampleEncoding.Float32, Music.Hits(3, seed: 2));

        var verdict = Comparer.Compare(File("a.wav"), File("b.wav"), new ComparisonOptions()).Main.Verdict;

        Assert.Contains("next to nothing in common", verdict, StringComparison.Ordinal);
        Assert.Contains("whether its polarity is A's, cannot be told", verdict, StringComparison.Ordinal);
        Assert.DoesNotContain("opposite", verdict, StringComparison.Ordinal);
    }

    [Fact]
    public void A_mono_side_against_a_stereo_one_has_the_same_loudness_in_the_table_and_in_the_matching()
    {
        Write("mono.wav", SampleEncoding.Float32, Music.Hits(3));
        Write("stereo.wav", SampleEncoding.Float32, Music.Hits(3), Music.Hits(3));

        var main = Comparer.Compare(File("mono.wav"), File("stereo.wav"), new ComparisonOptions()).Main;

        Assert.Equal((main.Matching.A, main.Matching.B), (main.A.Measures.LoudnessLufs, main.B.Measures.LoudnessLufs));
        Assert.Equal(main.B.Measures.LoudnessLufs, main.A.Measures.LoudnessLufs, CompareTolerance.RatioDb);
        Assert.Equal(0, main.Matching.OffsetDb, CompareTolerance.RatioDb);
        Assert.Equal((1, 2), (main.A.Channels, main.B.Channels));
    }

    [Fact]
    public void A_delay_is_reported_and_taken_out()
    {
        Write("a.wav", SampleEncoding.Float32, Music.Hits(3));
        Write("b.wav", SampleEncoding.Float32, Music.Hits(3).Delayed(48));

        var main = Comparer.Compare(File("a.wav"), File("b.wav"), new ComparisonOptions()).Main;

        Assert.Equal(48, main.Alignment.DelayFrames);
        Assert.Contains("B is 1.00 ms (48 frames) later than A", main.Verdict, StringComparison.Ordinal);
        Assert.InRange(main.Null.RmsDb, double.NegativeInfinity, -30);
    }

    [Fact]
    public void The_verdict_tells_of_a_fit_that_was_not_used()
    {
        var x = Music.Noise(3 * Rate, 1, 0.1);
        Write("a.wav", SampleEncoding.Float32, x);
        Write("b.wav", SampleEncoding.Float32, x.Plus(x.Delayed(48).Times(1.1)));

        var verdict = Comparer.Compare(File("a.wav"), File("b.wav"), new ComparisonOptions()).Main.Verdict;

        Assert.Contains("B fits A best 48 frames (1.00 ms) later, but not by enough to be moved", verdict, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(20000)]
    [InlineData(-20000)]
    public void After_a_large_delay_only_frames_that_both_sides_have_count(int delay)
    {
        var whole = Music.Noise((3 * Rate) + 20000, 4);
        var (early, late) = (whole[20000..], whole[..(3 * Rate)]);
        Write("a.wav", SampleEncoding.Float64, delay > 0 ? early : late);
        Write("b.wav", SampleEncoding.Float64, delay > 0 ? late : early);

        var main = Comparer.Compare(File("a.wav"), File("b.wav"), new ComparisonOptions()).Main;

        Assert.Equal(delay, main.Alignment.DelayFrames);
        Assert.True(main.Null.IsIdentical);
        Assert.Equal(1, main.Alignment.Correlation, CompareTolerance.RatioDb);
        Assert.Equal((3 * Rate) - 20000, main.Passage.Frames);
        Assert.Equal(delay > 0 ? 0 : 20000, main.Passage.FromFrame);
        Assert.Contains("20000 frames that only one side has left out", main.Verdict, StringComparison.Ordinal);
    }

    [Fact]
    public void A_chain_with_1_dB_more_make_up_leaves_90_dB_less_after_matching()
    {
        var (a, b) = (Chain("a", Buses), Chain("b", Buses.Replace("\"make_up_db\": 6", "\"make_up_db\": 7", StringComparison.Ordinal)));

        var report = Comparer.Compare(a, b, new ComparisonOptions { Print = "Impact" });

        Assert.InRange(report.Main.Null.RmsDb, double.NegativeInfinity, -90);
        Assert.Equal(-1, report.Main.Matching.OffsetDb, 1e-4);
        Assert.Contains("turned up by 1.00 dB, and nothing else", report.Main.Verdict, StringComparison.Ordinal);
        Assert.Equal(["impact: compressor make up 6 → 7 dB (1 dB up)"], report.Recipe);
        Assert.Equal(["90 RoughPreBus", "91 RoughWithBus"], report.Others.Select(o => o.Title));
    }

    [Fact]
    public void Only_what_differs_is_rendered_and_a_change_of_the_drum_bus_is_heard_on_the_second_rough()
    {
        var (a, b) = (Chain("a", Buses), Chain("b", Buses.Replace("\"ratio\": 2,", "\"ratio\": 4,", StringComparison.Ordinal)));

        var report = Comparer.Compare(a, b, new ComparisonOptions());

        Assert.Equal("91 RoughWithBus", report.Main.Title);
        Assert.Empty(report.Others);
        var curve = Assert.Single(report.Main.GainReductions, c => c.Title == "drum bus/compress");
        Assert.True(curve.B!.Max() > curve.A!.Max());
    }

    [Fact]
    public void Leaving_a_bus_out_tells_what_it_adds_and_where()
    {
        var report = Comparer.Compare(Chain("a", Buses), null, new ComparisonOptions { Without = "impact" });
        var addition = report.Main.Addition!;

        Assert.InRange(addition.TotalDb, 0.5, 12);
        Assert.InRange(addition.LowDb, 0, addition.TotalDb);
        Assert.StartsWith($"At true level 'impact' makes 90 RoughPreBus {Words.Number(addition.TotalDb)} dB stronger in mean level; ", report.Main.Verdict, StringComparison.Ordinal);
        Assert.Matches(@"level; [0-9]+ % of the energy it adds lies (below 120 Hz|from 120 Hz to 2 kHz|above 2 kHz)\. ", report.Main.Verdict);
        Assert.Contains("03 Impact is in A only.", report.Notes);
        Assert.Contains(report.Main.GainReductions, c => c.Title == "impact/compress" && c.A is not null && c.B is null);
    }

    [Theory]
    [InlineData("impact/compress")]
    [InlineData("impact/high")]
    [InlineData("high drum")]
    public void A_processor_a_feed_or_a_track_can_be_left_out(string word)
    {
        var main = Comparer.Compare(Chain("a", Buses), null, new ComparisonOptions { Without = word }).Main;

        Assert.False(main.Null.IsIdentical);
        Assert.Equal($"without {word}", main.B.Name);
    }

    [Theory]
    [InlineData("drum_bus", null, 0)]
    [InlineData("drum bus", "91", 0)]
    [InlineData("drum bus/compress", "with-bus", 0)]
    [InlineData("drum_bus", null, -3)]
    public void Without_the_drum_bus_the_second_rough_is_held_against_the_sum_that_goes_into_it(string word, string? print, double levelDb)
    {
        var chain = Chain("a", Buses + $$""", "output": { "bits": "32f", "rough_with_bus": { "number": 91, "name": "RoughWithBus", "level_db": {{levelDb}} } }""");
        var prints = SessionPrinter.Print(DrumPrint.Chains.Reading.ChainReader.Read(chain), new PrintOptions());
        var rough = TestSession.ReadFile(Path.Combine(prints.OutFolder, "90_RoughPreBus_Test_v1.wav"))[0].Times((float)Music.Gain(levelDb));

        var report = Comparer.Compare(chain, null, new ComparisonOptions { Without = word, Print = print });

        Assert.Equal(("91 RoughWithBus", false), (report.Main.Title, report.Main.Null.IsIdentical));
        Assert.All(report.Main.B.Sound!.Channels[0].Zip(rough.Skip((int)report.Main.Passage.FromFrame)), s => Assert.Equal(s.Second, s.First, FloatRounding));
        Assert.Empty(report.Others);
        Assert.Contains(report.Notes, n => n.StartsWith("B has no drum bus", StringComparison.Ordinal) && n.Contains("90 RoughPreBus", StringComparison.Ordinal) == (levelDb == 0));
        Assert.DoesNotContain(report.Notes, n => n.Contains("only", StringComparison.Ordinal));
    }

    [Fact]
    public void A_chain_without_a_drum_bus_is_held_against_one_that_has_it_on_the_second_rough()
    {
        var without = Buses[..Buses.IndexOf(",\n\"drum_bus\"", StringComparison.Ordinal)];

        var report = Comparer.Compare(Chain("a", without), Chain("b", Buses), new ComparisonOptions());

        Assert.Equal(("91 RoughWithBus", false), (report.Main.Title, report.Main.Null.IsIdentical));
        Assert.Contains("A has no drum bus: its side of 91 RoughWithBus is the sum that would go into one, which is 90 RoughPreBus.", report.Notes);
        Assert.Equal(["drum bus: compressor added at the front"], report.Recipe);
    }

    [Theory]
    [InlineData("high", "1", "--print 1: 'high' is not in 01 Low, which is the same with it and without it. It reaches 02 High, 03 Impact, 90 RoughPreBus, 91 RoughWithBus. Without it 02 High is gone. What can be compared: 03 Impact, 90 RoughPreBus, 91 RoughWithBus.")]
    [InlineData("impact/eq", "Low", "--print Low: 'impact/eq' is not in 01 Low, which is the same with it and without it. It reaches 03 Impact, 90 RoughPreBus, 91 RoughWithBus.")]
    [InlineData("drum_bus", "rough", "--print rough: 'drum_bus' is not in 90 RoughPreBus, which is the same with it and without it. It reaches 91 RoughWithBus.")]
    [InlineData("high", "2", "--print 2: 02 High is gone without 'high', so there is nothing to hold it against. What can be compared: 03 Impact, 90 RoughPreBus, 91 RoughWithBus.")]
    [InlineData("impact/eq", "Snare", "--print Snare: the chain has no such print. 'impact/eq' reaches 03 Impact, 90 RoughPreBus, 91 RoughWithBus.")]
    [InlineData("crush", null, "--without crush: no print of this chain is any different without it.")]
    public void A_print_that_a_part_does_not_reach_is_refused_with_those_that_it_reaches(string part, string? print, string words) =>
        Assert.Equal(words, Refusal(Chain("a", Buses), null, new ComparisonOptions { Without = part, Print = print }));

    [Fact]
    public void Without_a_printed_second_rough_a_drum_bus_cannot_be_left_out() =>
        Assert.Contains("this chain prints none", Refusal(Chain("a", Buses + ", \"output\": { \"rough_with_bus\": false }"), null, new ComparisonOptions { Without = "drum_bus" }), StringComparison.Ordinal);

    [Fact]
    public void A_part_that_only_an_optional_print_holds_is_heard_there()
    {
        var body = Buses.Replace("\"bus\": \"impact\", \"level_db\": -9", "\"bus\": \"crush\", \"optional\": true", StringComparison.Ordinal);

        Assert.Equal("03 Impact", Comparer.Compare(Chain("a", body), null, new ComparisonOptions { Without = "impact/eq" }).Main.Title);
        Assert.Equal(
            "--without crush: it reaches 03 Impact. Without it 03 Impact is gone. No other print is any different without 'crush'.",
            Refusal(Chain("a", body), null, new ComparisonOptions { Without = "crush" }));
        Assert.Equal("03 Impact", Comparer.Compare(Chain("a", body), Chain("b", body.Replace("\"ratio\": 8", "\"ratio\": 3", StringComparison.Ordinal)), new ComparisonOptions()).Main.Title);
    }

    [Fact]
    public void A_part_that_is_silent_in_the_passage_is_said_to_change_nothing_there()
    {
        var verdict = Comparer.Compare(Chain("a", Buses), null, new ComparisonOptions { Without = "high drum", From = _ => 0, To = _ => 0.3 }).Main.Verdict;

        Assert.Equal("'high drum' changes nothing in 0.00 s to 0.30 s: every sample is the same with it and without it, the null is −∞. Elsewhere it may.", verdict);
    }

    [Fact]
    public void Of_many_prints_the_one_that_is_identical_is_named()
    {
        var report = Comparer.Compare(Chain("a", Buses), Chain("b", Buses.Replace("\"ratio\": 8", "\"ratio\": 3", StringComparison.Ordinal)), new ComparisonOptions { Print = "low" });

        Assert.StartsWith("In 01 Low A and B are identical", report.Main.Verdict, StringComparison.Ordinal);
        Assert.Equal(["03 Impact", "90 RoughPreBus", "91 RoughWithBus"], report.Others.Select(o => o.Title));
    }

    [Fact]
    public void A_print_that_one_chain_lacks_is_refused_with_the_side_that_has_it()
    {
        var less = Buses.Replace("\"prints\": [ { \"number\": 1, \"name\": \"Low\", \"bus\": \"low\", \"level_db\": -6 }, ", "\"prints\": [ ", StringComparison.Ordinal);

        Assert.StartsWith("--print 1: 01 Low is in B only. Both sides have 02 High", Refusal(Chain("a", less), Chain("b", Buses), new ComparisonOptions { Print = "1" }), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("drumbus", "Did you mean 'drum_bus'")]
    [InlineData("impcat", "Did you mean 'impact'")]
    [InlineData("impact/compres", "Did you mean 'impact/compress'")]
    [InlineData("nothing/tape", "there is no bus 'nothing'")]
    public void A_word_that_names_nothing_is_answered_with_the_nearest(string word, string advice)
    {
        var problem = Assert.Throws<UsageException>(() => Comparer.Compare(Chain("a", Buses), null, new ComparisonOptions { Without = word }));

        Assert.Contains(advice, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_rendered_side_is_the_print_of_the_session_and_nothing_stays_behind()
    {
        const string Deletes = "delete the folder ";
        var steps = new ConcurrentQueue<string>();
        var chain = Chain("a", Buses);
        var prints = SessionPrinter.Print(DrumPrint.Chains.Reading.ChainReader.Read(chain), new PrintOptions { Encoding = SampleEncoding.Float32 });
        var print = TestSession.ReadFile(Path.Combine(prints.OutFolder, "03_Impact_Test_v1.wav"));

        var main = Comparer.Compare(chain, null, new ComparisonOptions { Without = "impact/compress", Print = "3", Steps = new FileSteps(steps.Enqueue) }).Main;

        Assert.Equal(print[0].Skip((int)main.Passage.FromFrame).Take(main.Passage.Frames), main.A.Sound!.Channels[0]);

        Assert.Contains("make a temporary folder", steps);
        var folder = Assert.Single(steps, s => s.StartsWith(Deletes + "drumprint-compare-", StringComparison.Ordinal))[Deletes.Length..];
        Assert.False(Directory.Exists(Path.Combine(Path.GetTempPath(), folder)));
    }

    [Fact]
    public void Folders_are_paired_by_number_and_name()
    {
        var (a, b) = (Folder("v1", "01_Kick_Song_v1.wav", "02_Snare_Song_v1.wav", "03_Hat_Song_v1.wav"), Folder("v2", "01_Kick_Song_v2.wav", "02_Snare_Song_v2.wav", "04_Hat_Song_v2.wav"));
        Write("v2/02_Snare_Song_v2.wav", SampleEncoding.Pcm24, Music.Hits(2, seed: 9));

        var report = Comparer.Compare(a, b, new ComparisonOptions { Print = "snare" });

        Assert.Equal("02 Snare", report.Main.Title);
        Assert.False(report.Main.Null.IsIdentical);
        Assert.Equal("01 Kick", Assert.Single(report.Others).Title);
        Assert.True(report.Others[0].Null.IsIdentical && report.Others[0].IsWholeIdentical == true);
        Assert.Equal(["03 Hat is in A only.", "04 Hat is in B only."], report.Notes);
    }

    [Fact]
    public void Tickets_stand_for_the_prints_beside_them()
    {
        var first = SessionPrinter.Print(DrumPrint.Chains.Reading.ChainReader.Read(Chain("a", Buses)), new PrintOptions { OutFolder = File("one") });
        SessionPrinter.Print(DrumPrint.Chains.Reading.ChainReader.Read(Chain("b", Buses.Replace("\"low\": -3", "\"low\": -1", StringComparison.Ordinal))), new PrintOptions { OutFolder = File("two") });

        var report = Comparer.Compare(File("one/Test_v1.ticket.json"), File("two/Test_v1.ticket.json"), new ComparisonOptions());

        Assert.Equal("90 RoughPreBus", report.Main.Title);
        Assert.Equal(first.Prints.Count, report.Others.Count + 1);
        Assert.Equal(["01 Low", "02 High"], report.Others.Where(o => o.Null.IsIdentical).Select(o => o.Title));
    }

    [Fact]
    public void Two_deliveries_with_one_rough_are_told_apart_by_what_changed()
    {
        Deliver("one", 1, -3);
        SessionPrinter.Print(DrumPrint.Chains.Reading.ChainReader.Read(Chain("b", Buses.Replace("\"ratio\": 2,", "\"ratio\": 4,", StringComparison.Ordinal))), new PrintOptions { OutFolder = File("two") });

        var report = Comparer.Compare(File("one"), File("two"), new ComparisonOptions());

        Assert.Equal(("91 RoughWithBus", false), (report.Main.Title, report.Main.Null.IsIdentical));
        Assert.NotNull(report.Main.A.Sound);
        Assert.Equal(["01 Low", "02 High", "03 Impact", "90 RoughPreBus"], report.Others.Select(o => o.Title));
        Assert.StartsWith("In 90 RoughPreBus A and B are identical", Comparer.Compare(File("one"), File("two"), new ComparisonOptions { Print = "rough" }).Main.Verdict, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_deliveries_in_one_folder_are_compared_by_their_tickets_without_a_word_on_each_others_files()
    {
        Deliver("both", 1, -3);
        Deliver("both", 2, -1);
        Write("both/04_Loop_Test_v1.wav", SampleEncoding.Pcm24, Music.Hits(1));

        var report = Comparer.Compare(File("both/Test_v1.ticket.json"), File("both/Test_v2.ticket.json"), new ComparisonOptions());

        Assert.Equal(("Test_v1.ticket.json", "Test_v2.ticket.json"), (report.Main.A.Name, report.Main.B.Name));
        Assert.False(report.Main.Null.IsIdentical);
        Assert.Equal([$"{File("both")}: 1 sound file left aside: the ticket does not name 04_Loop_Test_v1.wav."], report.Notes);
    }

    [Fact]
    public void Prints_of_a_version_whose_ticket_is_gone_are_no_oddity_and_the_rest_takes_one_line()
    {
        Deliver("one", 1, -3);
        Deliver("one", 2, -1);
        Deliver("two", 1, -3);
        System.IO.File.Delete(File("one/Test_v2.ticket.json"));
        System.IO.File.Delete(File("one/02_High_Test_v1.wav"));
        Write("one/loop.wav", SampleEncoding.Pcm24, Music.Hits(1));
        Write("one/mix.wav", SampleEncoding.Pcm24, Music.Hits(1));

        var report = Comparer.Compare(File("one"), File("two"), new ComparisonOptions());

        Assert.Equal(
            [
                $"{File("one")}: 1 sound file missing: the ticket names 02_High_Test_v1.wav.",
                $"{File("one")}: 2 sound files left aside: the ticket does not name loop.wav and others.",
                "02 High is in B only.",
            ],
            report.Notes);
    }

    [Fact]
    public void A_folder_of_several_deliveries_is_refused_in_the_words_of_diff()
    {
        Deliver("both", 1, -3);
        Deliver("both", 2, -1);
        var words = $"{File("both")} holds several tickets: Test_v1.ticket.json, Test_v2.ticket.json. Name one of them.";

        Assert.Equal(words, Refusal(File("both"), File("both")));
        Assert.Equal(words, Assert.Throws<UsageException>(() => DrumPrint.Diff.Differ.Compare(File("both"), File("both"))).Message);
        Assert.Contains("a holds several prints 01 Kick and no ticket: 01_Kick_Song_v1.wav, 01_Kick_Song_v2.wav.", Refusal(Folder("a", "01_Kick_Song_v1.wav", "01_Kick_Song_v2.wav"), File("both")), StringComparison.Ordinal);
    }

    [Fact]
    public void The_busiest_12_s_are_found_and_named()
    {
        var quiet = Music.Hits(20, every: 2);
        var busy = Music.Hits(20, seed: 2, every: 0.25, decayS: 0.02).Select((x, n) => n is > 6 * Rate and < 17 * Rate ? x : 0).ToArray();
        Write("a.wav", SampleEncoding.Float32, quiet.Plus(busy));

        var passage = Comparer.Compare(File("a.wav"), File("a.wav"), new ComparisonOptions()).Main.Passage;

        Assert.Equal((PassageChoice.Busiest, 12 * Rate), (passage.How, passage.Frames));
        Assert.InRange(passage.FromS, 4.5, 6.2);
    }

    [Fact]
    public void A_passage_is_asked_for_by_bar_and_named_by_bar()
    {
        System.IO.File.WriteAllText(File("tempo.json"), """{ "tempo_map": 1, "bars": [ { "from_bar": 5, "metre": "4/4", "bpm": 240 } ], "last_bar": 8 }""");
        var chain = Chain("a", Buses, "\"tempo\": \"tempo.json\"");

        var passage = Comparer.Compare(chain, null, new ComparisonOptions { Without = "impact", From = t => t!.SecondsAtBar(6), To = t => t!.SecondsAtBar(8) }).Main.Passage;

        Assert.Equal((Rate, 2 * Rate, PassageChoice.Asked), ((int)passage.FromFrame, passage.Frames, passage.How));
        Assert.Equal("bars 6 to 7 (1.00 s to 3.00 s)", passage.Words);
    }

    [Fact]
    public void What_does_not_go_together_is_refused_in_words()
    {
        Write("a.wav", SampleEncoding.Pcm24, Music.Hits(1));
        _session.Track("fast.wav", 96000, Music.Hits(1));
        var chain = Chain("a", Buses);

        Assert.Contains("Both sides need one rate", Refusal(File("a.wav"), File("fast.wav")), StringComparison.Ordinal);
        Assert.Contains("the same kind of thing", Refusal(File("a.wav"), chain), StringComparison.Ordinal);
        Assert.Contains("Give two targets", Refusal(chain, null), StringComparison.Ordinal);
        Assert.Contains("no such file or folder", Refusal(File("none.wav"), chain), StringComparison.Ordinal);
        Assert.Contains("01 Low, 02 High, 03 Impact, 90 RoughPreBus", Refusal(chain, chain, new ComparisonOptions { Print = "Snare" }), StringComparison.Ordinal);
        Assert.Contains("--trim goes on top of matched levels", Refusal(chain, chain, new ComparisonOptions { TrimDb = 1, Match = LevelMatch.TrueLevel }), StringComparison.Ordinal);
        Assert.Contains("--trim takes", Refusal(chain, chain, new ComparisonOptions { TrimDb = 4 }), StringComparison.Ordinal);
        Assert.Contains("--to lies before --from", Refusal(chain, chain, new ComparisonOptions { From = _ => 2, To = _ => 1 }), StringComparison.Ordinal);
        Assert.Contains("both sides have sound from 0 s to 4 s", Refusal(chain, chain, new ComparisonOptions { From = _ => 9 }), StringComparison.Ordinal);
    }

    // Of a tone at 1 kHz with a part that holds two others; the first sentence of the verdict.
    private string Told(double low, double high, double middle)
    {
        Write("base.wav", SampleEncoding.Float32, Signals.Sine(4 * Rate, 1000, 0.3));
        var with = Signals.Sine(4 * Rate, 1000, middle).Plus(Signals.Sine(4 * Rate, 60, low)).Plus(Signals.Sine(4 * Rate, 5000, high)).Plus(Music.Noise(4 * Rate, 4, 0.0001));
        Write("with.wav", SampleEncoding.Float32, with);
        var options = new ComparisonOptions { Without = "part" };
        var (a, b) = (SideFile.Open(File("with.wav")), SideFile.Open(File("base.wav")));
        var verdict = PairMeasurement.Of("", a, b, PairMeasurement.Choose(a, b, options), options).Verdict;
        return verdict[..(verdict.IndexOf(". ", StringComparison.Ordinal) + 1)];
    }

    private static string Refusal(string a, string? b, ComparisonOptions? options = null) =>
        Assert.Throws<UsageException>(() => Comparer.Compare(a, b, options ?? new ComparisonOptions())).Message;

    private string File(string name) => Path.Combine(_session.Folder, name);

    private string Chain(string name, string body, string song = "")
    {
        var path = File(name + ".chain.json");
        System.IO.File.WriteAllText(path, $$"""{ "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000{{(song.Length == 0 ? "" : ", " + song)}} }, {{body}} }""");
        return path;
    }

    private void Deliver(string folder, int version, double lowDb) => SessionPrinter.Print(
        DrumPrint.Chains.Reading.ChainReader.Read(Chain("delivered", Buses.Replace("\"low\": -3", FormattableString.Invariant($"\"low\": {lowDb}"), StringComparison.Ordinal), FormattableString.Invariant($"\"version\": {version}"))),
        new PrintOptions { OutFolder = File(folder) });

    private string Folder(string name, params string[] files)
    {
        Directory.CreateDirectory(File(name));
        foreach (var file in files)
        {
            Write(Path.Combine(name, file), SampleEncoding.Pcm24, Music.Hits(2));
        }

        return File(name);
    }

    private void Write(string name, SampleEncoding encoding, params double[][] channels)
    {
        var steps = encoding == SampleEncoding.Pcm16 ? 1 << 15 : encoding == SampleEncoding.Pcm24 ? 1 << 23 : 0;
        var rounded = channels.Select(c => steps == 0 ? c : [.. c.Select(x => Math.Round(x * steps) / steps)]).ToArray();
        using var writer = WaveWriter.Create(File(name), new AudioFormat(Rate, channels.Length), encoding, null, channels[0].Length);
        writer.Write(new AudioBlock(rounded, 0, channels[0].Length));
        writer.Finish(channels[0].Length);
        writer.Publish();
    }
}
