using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Checking;
using DrumPrint.Dsp;
using DrumPrint.Files;

namespace DrumPrint.Tests.Checking;

/// <summary>Rules on a few seconds of made-up sound.</summary>
public sealed class RuleTests : IDisposable
{
    private const int Rate = 48000;
    private const double Loud = 0.5;
    private readonly string _folder = Directory.CreateTempSubdirectory("drumprint-").FullName;
    private readonly Dictionary<string, string> _tracks = [];

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_hole_is_told_by_bar_and_beat()
    {
        var sound = Noise(6);
        sound.AsSpan(2 * Rate, Rate).Clear();
        Track("rack tom", sound);

        var found = Assert.Single(Check().Findings, f => f.Rule.Id == "C10");

        Assert.Equal("2:1.00", CheckWithBars().Bar(Assert.Single(found.PlacesS)));
    }

    [Fact]
    public void A_floor_of_noise_is_no_tail_and_a_tail_is_one()
    {
        var floor = Noise(4, 0.001);
        floor[Rate] = Loud;
        for (var n = 0; n < 4800; n++)
        {
            floor[Rate + n] += 0.1 * NoiseAt(n);
        }

        var tail = Noise(4, 0.00001);
        for (var n = Rate; n < tail.Length; n++)
        {
            tail[n] += NoiseAt(n) * Math.Pow(10, -(n - Rate) / (double)Rate);
        }

        Track("floor", floor);
        Track("tail", tail);

        var found = Assert.Single(Check().Findings, f => f.Rule.Id == "G2");

        Assert.Equal("tail", found.Track);
    }

    [Theory]
    [InlineData(2.0, null)]
    [InlineData(3.0, "B9")]
    public void A_microphone_that_hears_a_drum_from_elsewhere_than_it_is_said_to_stand_is_told(double saidM, string? rule)
    {
        // 2 m of air at 20 °C.
        const int Late = (int)(2.0 / 343.2 * Rate);
        var (snare, overhead) = (new double[12 * Rate], new double[12 * Rate]);
        for (var i = 1; i < 22; i++)
        {
            Hit(snare, (i * Rate / 2) + (37 * i), 0.6, 190 + i);
            Hit(overhead, (i * Rate / 2) + (37 * i) + Late, 0.2, 190 + i);
        }

        Track("snare", snare);
        Track("overhead", overhead);
        var chain = Chain();
        var text = File.ReadAllText(chain.Path)
            .Replace("\"snare\":\"snare.wav\"", "\"snare\": { \"file\": \"snare.wav\", \"at_m\": [0.5, 0, 0.8] }", StringComparison.Ordinal)
            .Replace("\"overhead\":\"overhead.wav\"", string.Create(System.Globalization.CultureInfo.InvariantCulture, $"\"overhead\": {{ \"file\": \"overhead.wav\", \"at_m\": [0.5, 0, {0.8 + saidM}] }}"), StringComparison.Ordinal);
        File.WriteAllText(chain.Path, text);

        var found = Checker.Check(chain.Path, new CheckOptions()).Findings.Where(f => f.Rule.Id == "B9").ToList();

        Assert.Equal(rule is null ? 0 : 1, found.Count);
        Assert.All(found, f => Assert.Equal("overhead hears snare 2.0 m of air later, and by their places they are 3.0 m apart.", f.Sentence));
    }

    [Theory]
    [InlineData("\"delay_ms\": 0.5", -6, "by up to 9.6 dB at 1 kHz, 3 kHz and 5 kHz and 1 more place below 8 kHz")]
    [InlineData("\"polarity\": \"inverted\"", -6, "cancel by 9.6 dB at all frequencies")]
    [InlineData("\"delay_ms\": 0.5", -12, null)]
    [InlineData("\"delay_ms\": 0", -6, null)]
    [InlineData("\"delay_ms\": 40", -6, null)]
    public void A_comb_from_parallel_paths_is_told_before_anything_is_printed(string feed, double levelDb, string? told)
    {
        // Oracle: g = 10^(−6/20) = 0.501; (1 − g) / (1 + g) = −9.57 dB at odd multiples of 1 / (2 · 0.5 ms) = 1 kHz; 10^(−12/20) dips by 4.5 dB.
        Track("shaker", Noise(3));
        var path = Path.Combine(_folder, "song.chain.json");
        File.WriteAllText(path, $$"""
            { "chain": 1, "song": { "title": "A", "code": "A", "rate_hz": 48000 }, "tracks": {{JsonSerializer.Serialize(_tracks)}},
              "buses": { "dry": { "from": { "shaker": 0 } }, "loud": { "from": { "shaker": { "level_db": {{levelDb.ToString(System.Globalization.CultureInfo.InvariantCulture)}}, {{feed}} } }, "through": [ { "gain": { "level_db": 6 } }, { "gain": { "level_db": -6 } } ] } },
              "prints": [ { "number": 1, "name": "Dry", "bus": "dry" }, { "number": 2, "name": "Loud", "bus": "loud" } ] }
            """);

        var found = Checker.Check(path, new CheckOptions()).Findings.Where(f => f.Rule.Id == "F7").ToList();

        Assert.Equal(told is null ? 0 : 1, found.Count);
        Assert.All(found, f => Assert.Contains(told!, f.Sentence, StringComparison.Ordinal));
    }

    [Fact]
    public void Hits_of_another_drum_that_open_a_gate_are_told()
    {
        var (snare, kick) = (new double[14 * Rate], new double[14 * Rate]);
        for (var i = 1; i < 26; i++)
        {
            var at = i * Rate / 2;
            if (i % 2 == 0)
            {
                Hit(snare, at, 0.8, 200);
                Hit(kick, at, 0.02, 200);
            }
            else
            {
                Hit(kick, at, 0.9, 60);
                Hit(snare, at, 0.2, 60);
            }
        }

        Track("snare", snare);
        Track("kick", kick);

        var found = Assert.Single(Check("""{ "gate": { "open_db": -20, "close_db": -26, "look_ahead_ms": 1, "attack_ms": 0.3, "hold_ms": 60, "release_ms": 60, "range_db": -60 } }""").Findings, f => f.Rule.Id == "G8");

        Assert.Equal("The gate at −20 dB opens 13 times of 25 for a drum that is not snare: 13 for kick.", found.Sentence);
        Assert.Equal(Enumerable.Range(0, 13).Select(i => i + 0.5), found.PlacesS.Select(p => Math.Round(p, 1)));
    }

    [Fact]
    public void Another_drum_hit_at_the_same_time_does_not_hide_a_lost_ghost()
    {
        var (snare, hat) = (new double[12 * Rate], new double[12 * Rate]);
        for (var i = 1; i < 23; i++)
        {
            var at = i * Rate / 2;
            Hit(hat, at, 0.4, 6000);
            Hit(snare, at, 0.4 * 0.05, 6000);
            if (i % 2 == 0)
            {
                Hit(snare, at, i % 6 == 0 ? 0.06 : 0.8, 200);
            }
        }

        Track("snare", snare);
        Track("hat", hat);

        var found = Assert.Single(Check("""{ "gate": { "open_db": -18, "close_db": -24, "look_ahead_ms": 1, "attack_ms": 0.3, "range_db": -40 } }""").Findings, f => f.Rule.Id == "G7");

        Assert.Equal([3.0, 6.0, 9.0], found.PlacesS.Select(p => Math.Round(p, 1)));
    }

    [Theory]
    [InlineData(6, true)]
    [InlineData(0.3, false)]
    public void A_slow_gate_chops_attacks_and_a_quick_one_does_not(double attackMs, bool isChopped)
    {
        var snare = new double[6 * Rate];
        for (var i = 1; i < 11; i++)
        {
            // A kick spills in 8 ms before the drum speaks.
            Hit(snare, (i * Rate / 2) - 384, 0.05, 60);
            Hit(snare, i * Rate / 2, 0.8, 200);
        }

        Track("snare", snare);

        var report = Check(FormattableString.Invariant($$"""{ "gate": { "open_db": -18, "close_db": -24, "look_ahead_ms": 0.5, "attack_ms": {{attackMs}}, "hold_ms": 20, "release_ms": 50, "range_db": -40 } }"""));

        Assert.Equal(isChopped, report.Findings.Any(f => f.Rule.Id == "G5"));
    }

    [Theory]
    [InlineData("minimum", "F4")]
    [InlineData("linear", null)]
    public void Bands_beside_their_dry_sound_are_told_unless_they_leave_the_phase(string phase, string? told)
    {
        Track("snare", Noise(2));
        var report = Beside($$"""{ "bands": { "split_hz": 150, "phase": "{{phase}}", "in": [ ] } }""");

        Assert.Equal(told is null ? [] : [told], report.Findings.Where(f => f.Rule.Id is "F4" or "F8").Select(f => f.Rule.Id));
        Assert.All(report.Findings.Where(f => f.Rule.Id == "F4"), f => Assert.Contains("expect a hole near 150 Hz", f.Sentence, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("""{ "eq": { "phase": "linear", "bands": [ { "high_pass": { "freq_hz": 40, "slope_db_per_oct": 24 } } ] } }""", "eq with linear phase begins 54 ms before each hit.")]
    [InlineData("""{ "bands": { "split_hz": 40, "phase": "linear", "in": [ ] } }""", "bands with linear phase begins 4")]
    public void A_filter_that_begins_long_before_the_hit_is_told_with_its_time(string stage, string expected)
    {
        Track("snare", Noise(2));

        Assert.StartsWith(expected, Assert.Single(Beside(stage).Findings, f => f.Rule.Id == "F8").Sentence, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("minimum", true)]
    [InlineData("linear", false)]
    public void A_steep_filter_beside_its_dry_sound_is_told_unless_it_leaves_the_phase(string phase, bool isTold)
    {
        Track("snare", Noise(2));

        var report = Beside($$"""{ "eq": { "phase": "{{phase}}", "bands": [ { "high_pass": { "freq_hz": 200, "slope_db_per_oct": 24 } } ] } }""");

        Assert.Equal(isTold, report.Findings.Any(f => f.Rule.Id == "F4"));
    }

    // A print of the snare and one of the same through a processor.
    private CheckReport Beside(string stage)
    {
        var path = Path.Combine(_folder, "song.chain.json");
        File.WriteAllText(path, $$"""
            { "chain": 1, "song": { "title": "A", "code": "A", "rate_hz": 48000 }, "tracks": { "snare": "snare.wav" },
              "buses": { "dry": { "from": { "snare": 0 } }, "thin": { "from": { "snare": 0 }, "through": [ {{stage}} ] } },
              "prints": [ { "number": 1, "name": "Dry", "bus": "dry" }, { "number": 2, "name": "Thin", "bus": "thin" } ] }
            """);
        return Checker.Check(path, new CheckOptions());
    }

    [Fact]
    public void A_clipped_second_microphone_does_not_become_the_one_that_stands_for_its_drum()
    {
        var (top, vent, left, right) = (new double[8 * Rate], new double[8 * Rate], Noise(8, 1e-5), Noise(8, 1e-5));
        for (var i = 1; i < 15; i++)
        {
            var at = i * Rate / 2;
            Hit(top, at, 0.5, 200);
            Array.Fill(vent, 1 - (1.0 / (1 << 23)), at + 6000, 8); // what it hears is no use for a delay
            Hit(left, at + 127, 0.1, 200);
            Hit(right, at + 639, 0.1, 200);
        }

        Track("snare vent", vent);
        Track("snare top", top);
        Track("overhead left", left);
        Track("overhead right", right);

        var found = Assert.Single(Check().Findings, f => f.Rule.Id == "B2");

        Assert.Equal("overhead right", found.Track);
        Assert.Equal(512, found.Value!.Value, 1.0);
    }

    [Fact]
    public void Quick_rules_tell_of_a_copied_file_and_of_another_start()
    {
        Track("one", Noise(2));
        Track("two", Noise(2));
        Track("three", Noise(2, 0.2), startFrame: 2 * Rate);
        Track("four", Noise(2, 0.3));

        var lines = QuickCheck.Faults(Chain(), ReadPolicy.Default);

        Assert.Equal(2, lines.Count);
        Assert.Equal("track 'three': The file is stamped to start 2.000 s after most others. Export all files from one start to one end. (rule B1 of the check)", lines[0]);
        Assert.Equal("track 'two': two.wav holds the same samples as one.wav. Find the file that was meant. (rule D3 of the check)", lines[1]);
    }

    [Fact]
    public void Quick_rules_say_nothing_of_good_files_nor_of_what_is_signed_off()
    {
        Track("one", Noise(2));
        Track("two", Noise(2));

        Assert.Empty(QuickCheck.Faults(Chain(accepted: """, "accepted": [ { "rule": "D3", "track": "two", "why": "meant" } ]"""), ReadPolicy.Default));
    }

    [Theory]
    [InlineData(1.9999, "2:1.00")]
    [InlineData(2.0, "2:1.00")]
    [InlineData(2.49, "2:1.98")]
    [InlineData(7.9999, null)]
    public void A_place_a_hair_before_its_beat_is_told_as_that_beat(double seconds, string? place) =>
        Assert.Equal(place, new TempoMap("", [new TempoStretch(1, 4, 4, 120)], [], 4).BarAndBeat(seconds));

    private static double NoiseAt(int n) => (((n * 37L) % 1009) / 504.5) - 1 + 0.0003;

    private static double[] Noise(int seconds, double level = 0.1) => [.. Enumerable.Range(0, seconds * Rate).Select(n => level * NoiseAt(n))];

    // A decaying tone with a sharp start.
    private static void Hit(double[] into, int at, double level, double hz)
    {
        for (var n = 0; n < Rate / 5 && at + n < into.Length; n++)
        {
            into[at + n] += level * Math.Exp(-n / (0.03 * Rate)) * (Math.Cos(2 * Math.PI * hz * n / Rate) + (n < 240 ? 0.5 * NoiseAt(n * 7) : 0));
        }
    }

    private void Track(string name, double[] samples, long startFrame = 0)
    {
        _tracks[name] = name.Replace(' ', '_') + ".wav";
        using var writer = WaveWriter.Create(Path.Combine(_folder, _tracks[name]), new AudioFormat(Rate, 1), SampleEncoding.Pcm24, new BroadcastExtension { TimeReference = startFrame }, samples.Length);
        writer.Write(new AudioBlock([samples], 0, samples.Length));
        writer.Finish(samples.Length);
        writer.Publish();
    }

    private Chain Chain(string through = "", string accepted = "", string tempo = "")
    {
        var first = _tracks.Keys.First();
        var others = _tracks.Keys.Skip(1).ToList();
        var chain = $$"""
            { "chain": 1, "song": { "title": "A", "code": "A", "rate_hz": 48000{{tempo}} }, "tracks": {{JsonSerializer.Serialize(_tracks)}},
              "buses": { "first": { "from": { "{{first}}": 0 }, "through": [ {{through}} ] }{{(others.Count > 0 ? $$""", "others": { "from": {{JsonSerializer.Serialize(others.ToDictionary(o => o, _ => 0))}} }""" : "")}} },
              "prints": [ { "number": 1, "name": "First", "bus": "first" }{{(others.Count > 0 ? """, { "number": 2, "name": "Others", "bus": "others" }""" : "")}} ]{{accepted}} }
            """;
        File.WriteAllText(Path.Combine(_folder, "song.chain.json"), chain);
        return ChainReader.Read(Path.Combine(_folder, "song.chain.json"));
    }

    private CheckReport Check(string through = "")
    {
        var chain = Chain(through);
        return Checker.Check(chain.Path, new CheckOptions());
    }

    private CheckReport CheckWithBars()
    {
        File.WriteAllText(Path.Combine(_folder, "tempo.json"), """{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "4/4", "bpm": 120 } ], "last_bar": 3 }""");
        return Checker.Check(Chain(tempo: """, "tempo": "tempo.json" """).Path, new CheckOptions());
    }
}
