using DrumPrint.Dsp.Numerics;
using DrumPrint.Live;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Live;

/// <summary>What the picture of a song tells of its processors, on sound of which it is known.</summary>
public sealed class SongOutlineTests : IDisposable
{
    private const int Rate = TestSession.Rate;
    private const int Columns = 400;
    private const double Tolerance = 0.02; // two windows of 10 ms, in seconds

    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    // The static curve of a compressor above its threshold: (1 − 1/ratio) of what lies over it. Giannoulis, Massberg and Reiss, JAES 60 (6), 2012, eq. 3.
    [Fact]
    public void The_most_that_a_compressor_turns_down_is_told_with_its_place_and_drawn_there_only()
    {
        _session.Track("tone.wav", [.. Enumerable.Range(0, 4 * Rate).Select(n => n is >= Rate and < 2 * Rate ? 0.5 * Math.Sin(2 * Math.PI * 1000 * n / Rate) : 0)]);

        var line = Assert.Single(Outline("\"tone\": \"tone.wav\"", """{ "compress": { "threshold_db": -26.02, "ratio": 4, "knee_db": 0, "attack_ms": 1, "release_ms": 20, "detector": "peak" } }""").Lines);

        Assert.Equal(("bus", "compress"), (line.Bus, line.Name));
        Assert.Equal(15, line.MostDb, 0.1);
        Assert.InRange(line.MostAtS, 1, 2);
        Assert.Null(line.Gate);
        Assert.All(line.Lowest.Take(99), g => Assert.Equal(1, g));
        Assert.All(line.Lowest.Skip(105).Take(94), g => Assert.Equal(-15, Decibels.FromGain(g), 0.2));
        Assert.All(line.Lowest.Skip(240), g => Assert.InRange(Decibels.FromGain(g), -0.1, 0));
    }

    // Open from the first sample over the level to the end of the hold, then down: by what the chain says.
    [Theory]
    [InlineData(0)]
    [InlineData(50)]
    public void A_gate_is_open_from_the_hit_to_the_end_of_its_hold(double aheadMs)
    {
        _session.Track("tone.wav", [.. Enumerable.Range(0, 4 * Rate).Select(n => n % (2 * Rate) is >= Rate and < Rate + (Rate / 5) ? 0.5 * Math.Sin(2 * Math.PI * 1000 * n / Rate) : 0)]);

        var line = Assert.Single(Outline("\"tone\": \"tone.wav\"", $$"""{ "gate": { "open_db": -20, "look_ahead_ms": {{aheadMs}}, "attack_ms": 0, "hold_ms": 100, "release_ms": 0, "range_db": -40 } }""").Lines);

        Assert.Equal(2, line.Gate!.Open.Count);
        Assert.Equal(1 - (aheadMs / 1000), line.Gate.Open[0].FromS, Tolerance);
        Assert.Equal(1.3, line.Gate.Open[0].ToS, Tolerance);
        Assert.Equal(3 - (aheadMs / 1000), line.Gate.Open[1].FromS, Tolerance);
        Assert.Equal(40, line.MostDb, 0.1);
    }

    [Fact]
    public void A_gate_that_turns_down_little_opens_and_closes_all_the_same()
    {
        _session.Track("tone.wav", [.. Enumerable.Range(0, 2 * Rate).Select(n => n is >= Rate and < Rate + (Rate / 5) ? 0.5 * Math.Sin(2 * Math.PI * 1000 * n / Rate) : 0)]);

        var line = Assert.Single(Outline("\"tone\": \"tone.wav\"", """{ "gate": { "open_db": -20, "hold_ms": 100, "release_ms": 10, "range_db": -3 } }""").Lines);

        Assert.Equal(1, Assert.Single(line.Gate!.Open).FromS, Tolerance);
    }

    [Fact]
    public void Hits_that_a_gate_loses_are_told_with_time_and_peak()
    {
        double[] soft = [1.5, 3.25, 4.5];
        Snare(soft);

        var gate = Assert.Single(Outline("\"snare\": \"snare.wav\"", """{ "gate": { "open_db": -30, "hold_ms": 60, "release_ms": 40, "range_db": -60 } }""").Lines).Gate!;

        Assert.Equal(12, gate.HitCount);
        Assert.Null(gate.NotCounted);
        Assert.Equal(soft.Length, gate.Lost.Count);
        Assert.All(soft.Zip(gate.Lost), h => Assert.Equal(h.First, h.Second.AtS, 0.005));
        Assert.All(gate.Lost, l => Assert.Equal(Decibels.FromGain(0.01), l.PeakDb, 0.5));
        Assert.Equal(9, gate.Open.Count);
    }

    [Fact]
    public void A_delay_of_the_track_moves_its_hits_and_what_is_open_with_them()
    {
        Snare([3.25]);

        var gate = Assert.Single(Outline("\"snare\": { \"file\": \"snare.wav\", \"delay_ms\": 100 }", """{ "gate": { "open_db": -30, "hold_ms": 60, "release_ms": 40 } }""").Lines).Gate!;

        Assert.Equal(3.35, Assert.Single(gate.Lost).AtS, 0.005);
        Assert.Equal(0.6, gate.Open[0].FromS, Tolerance);
    }

    // Fifty windows lie in a column here; one of them holds the gain that counts.
    [Fact]
    public void A_column_of_many_windows_shows_the_lowest_of_them()
    {
        _session.Track("tone.wav", [.. Enumerable.Range(0, 4 * Rate).Select(n => n is >= Rate and < Rate + (Rate / 20) ? 0.5 * Math.Sin(2 * Math.PI * 1000 * n / Rate) : 0)]);

        var lowest = Assert.Single(Outline("\"tone\": \"tone.wav\"", """{ "compress": { "threshold_db": -26.02, "ratio": 4, "knee_db": 0, "attack_ms": 1, "release_ms": 20, "detector": "peak" } }""", columns: 8).Lines).Lowest;

        Assert.Equal(-15, Decibels.FromGain(lowest[2]), 0.2);
        Assert.All(lowest.Where((_, column) => column != 2), g => Assert.InRange(Decibels.FromGain(g), -0.1, 0));
    }

    // What looks ahead comes late; the picture has it where it sounds, and a hit that comes late is not a lost one.
    [Fact]
    public void A_look_ahead_moves_nothing_in_the_picture_and_loses_no_hit()
    {
        Snare([1.5]);

        var outline = Outline("\"snare\": \"snare.wav\"", """{ "gate": { "open_db": -30, "look_ahead_ms": 50, "hold_ms": 60, "release_ms": 40, "range_db": -60 } }""");

        var gate = Assert.Single(outline.Lines).Gate!;
        Assert.Equal(1.5, Assert.Single(gate.Lost).AtS, 0.005);
        var first = outline.Columns[1].ToList().FindIndex(peak => peak > 0.1f);
        Assert.Equal(0.5, first * 7.0 / Columns, Tolerance);
    }

    // A stroke whose peak comes after its beginning.
    [Fact]
    public void A_lost_hit_is_as_loud_as_its_highest_sample()
    {
        Snare([1.5], riseS: 0.004);

        var gate = Assert.Single(Outline("\"snare\": \"snare.wav\"", """{ "gate": { "open_db": -30, "hold_ms": 60, "release_ms": 40, "range_db": -60 } }""").Lines).Gate!;

        Assert.Equal(Decibels.FromGain(0.01), Assert.Single(gate.Lost).PeakDb, 1.5);
    }

    [Theory]
    [InlineData("\"room\": \"snare.wav\"", "", "no close microphone")]
    [InlineData("\"snare\": \"snare.wav\"", """, { "delay": { "time_ms": 40 } }""", "spreads hits")]
    public void Where_hits_cannot_be_counted_it_says_why(string track, string more, string why)
    {
        Snare([3.25]);

        var gate = Assert.Single(Outline(track, """{ "gate": { "open_db": -30 } }""" + more).Lines).Gate!;

        Assert.Null(gate.HitCount);
        Assert.Empty(gate.Lost);
        Assert.Contains(why, gate.NotCounted, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_of_one_kind_and_the_bands_of_one_are_told_apart_and_the_drum_bus_is_one_of_them()
    {
        Snare([]);
        var chain = _session.Chain("""
            "tracks": { "snare": "snare.wav" },
            "buses": { "bus": { "from": { "snare": 0 }, "through": [
              { "compress": {} }, { "eq": { "bands": [ { "bell": { "freq_hz": 400, "gain_db": -3 } } ] } }, { "compress": {} },
              { "dynamic_eq": { "bands": [ { "bell": { "freq_hz": 95, "q": 3, "threshold_db": -36 } } ] } } ] } },
            "prints": [ { "number": 1, "name": "Bus", "bus": "bus" } ],
            "drum_bus": { "through": [ { "limit": {} } ] }
            """);

        var lines = SongOutline.Of(chain, Columns).Lines;

        Assert.Equal([("bus", "compress 1"), ("bus", "compress 2"), ("bus", "dynamic_eq, bell at 95 Hz"), ("", "limit")], lines.Select(l => (l.Bus, l.Name)));
    }

    // Twelve hits, one each half second from 0.5 s; some of them soft.
    private void Snare(double[] soft, double riseS = 0)
    {
        var noise = new CounterNoise(8);
        var sound = new double[7 * Rate];
        double[] times = [0.5, 1, 1.5, 2, 2.5, 3, 3.25, 3.75, 4.5, 5, 5.5, 6];
        foreach (var at in times)
        {
            var first = (int)(at * Rate);
            var level = soft.Contains(at) ? 0.01 : 0.5;
            for (var n = 0; n < Rate / 5; n++)
            {
                sound[first + n] += level * Math.Clamp(3 * noise.Bipolar(n), -1, 1) * Math.Exp(-n / 1500.0) * Math.Min(1, riseS == 0 ? 1 : n / (riseS * Rate));
            }
        }

        _session.Track("snare.wav", sound);
    }

    private SongOutline Outline(string track, string through, int columns = Columns) => SongOutline.Of(
        _session.Chain($$"""
            "tracks": { {{track}} },
            "buses": { "bus": { "from": { {{track[..track.IndexOf(':', StringComparison.Ordinal)]}}: 0 }, "through": [ {{through}} ] } },
            "prints": [ { "number": 1, "name": "Bus", "bus": "bus" } ]
            """),
        columns);
}
