using System.Numerics;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

/// <summary>Where an impulse on a track turns up in the prints.</summary>
public sealed class RoutingTests : IDisposable
{
    private const int At = 1000;
    private readonly TestSession _session = new();

    public RoutingTests()
    {
        _session.Track("a.wav", Signals.Impulse(9600, At));
        _session.Track("b.wav", Signals.Impulse(9600, At));
        _session.Track("silent.wav", new double[9600]);
    }

    public void Dispose() => _session.Dispose();

    [Theory]
    [InlineData("\"delay_ms\": 1.10", 53)] // 52.8 frames at 48 kHz, to the nearest whole frame
    [InlineData("\"delay_frames\": 77", 77)]
    [InlineData("\"delay_m\": 1", 140)]    // 139.854 frames at 20 °C and 343.2 m/s (ISO 9613-1)
    public void A_delay_on_a_feed_or_on_a_track_moves_it_by_whole_frames(string delay, int frames)
    {
        var chain = _session.Chain($$"""
            "tracks": { "a": "a.wav", "b": { "file": "b.wav", {{delay}} } },
            "buses": { "feed": { "from": { "a": { "level_db": 0, {{delay}} } } }, "track": { "from": { "b": 0 } } },
            "prints": [ { "number": 1, "name": "Feed", "bus": "feed" }, { "number": 2, "name": "Track", "bus": "track" } ]
            """);

        _session.Print(chain);

        Assert.Equal(At + frames, Signals.PeakAt(_session.Read("01_Feed_Test_v1.wav")[0]));
        Assert.Equal(At + frames, Signals.PeakAt(_session.Read("02_Track_Test_v1.wav")[0]));
    }

    // Source: the ideal delay, e^(−jωD). A 24-bit print of 9600 frames rounds by some millionths.
    [Theory]
    [InlineData("\"delay_ms\": 1.10", 52.8)]
    [InlineData("\"delay_frames\": 53.4", 53.4)]
    [InlineData("\"delay_frames\": 0.25", 0.25)]
    [InlineData("\"delay_frames\": 77", 77)]
    [InlineData("\"delay_m\": 1", 139.86013986013987)] // 48000 / 343.2
    public void An_exact_delay_on_a_feed_or_on_a_track_keeps_its_part_of_a_frame(string delay, double frames)
    {
        const double Rounding = 3e-5;
        var chain = _session.Chain($$"""
            "tracks": { "a": "a.wav", "b": { "file": "b.wav", {{delay}}, "exact": true } },
            "buses": { "feed": { "from": { "a": { "level_db": 0, {{delay}}, "exact": true }, "silent": 0 } }, "track": { "from": { "b": 0 } } },
            "prints": [ { "number": 1, "name": "Feed", "bus": "feed" }, { "number": 2, "name": "Track", "bus": "track" } ]
            """.Replace("\"a\": \"a.wav\"", "\"a\": \"a.wav\", \"silent\": \"silent.wav\"", StringComparison.Ordinal));

        _session.Print(chain);

        foreach (var print in new[] { _session.Read("01_Feed_Test_v1.wav")[0], _session.Read("02_Track_Test_v1.wav")[0] })
        {
            for (var freq = 500.0; freq <= 21600; freq += 500)
            {
                var turn = -2 * Math.PI * freq / 48000;
                var response = print.Select((x, n) => x * Complex.FromPolarCoordinates(1, turn * (n - At))).Aggregate((sum, x) => sum + x);
                Assert.InRange((response - Complex.FromPolarCoordinates(0.5, turn * frames)).Magnitude, 0, Rounding);
            }
        }
    }

    [Fact]
    public void Paths_of_different_latency_meet_on_the_same_frame()
    {
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav" },
                        "buses": {
              "late": { "from": { "a": -40 }, "through": [ { "saturate": { "oversampling": 8 } }, { "gate": { "look_ahead_ms": 5, "open_db": -100, "close_db": -106 } } ] },
              "both": { "from": { "a": 0, "late": 40 } } },
            "prints": [ { "number": 1, "name": "Dry", "bus": "both", "optional": true }, { "number": 2, "name": "Late", "bus": "late" } ]
            """);

        var report = _session.Print(chain);

        Assert.True(report.Prints.Single(p => p.Name == "Late").LatencyFrames > 240);
        Assert.Equal(At, Signals.PeakAt(_session.Read("02_Late_Test_v1.wav")[0]));
        var sum = _session.Read("01_Dry_Test_v1.wav")[0];
        Assert.Equal(At, Signals.PeakAt(sum));
        Assert.InRange(sum[At], 0.9, 1.1); // 0.5 + 0.5, less what the oversampling filters keep above 20 kHz
    }

    [Fact]
    public void A_key_of_other_latency_still_acts_on_the_same_frame()
    {
        var steady = Signals.Sine(9600, 1000, 0.25);
        _session.Track("steady.wav", steady);
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav", "steady": "steady.wav" },
            "buses": {
              "late": { "from": { "a": 0 }, "through": [ { "gate": { "look_ahead_ms": 10, "open_db": -60, "close_db": -66 } } ] },
              "ducked": { "from": { "steady": 0 }, "through": [ { "duck": { "key": "late", "amount_db": 60, "attack_ms": 0, "hold_ms": 20 } } ] } },
            "prints": [ { "number": 1, "name": "Ducked", "bus": "ducked" } ]
            """);

        _session.Print(chain);

        var ducked = _session.Read("01_Ducked_Test_v1.wav")[0];

        // The detector reads the wave between the samples, and a click's wave begins a few frames before its highest one.
        Assert.All(Enumerable.Range(0, At - 8), n => Assert.Equal(steady[n], ducked[n], 1e-6));
        Assert.All(Enumerable.Range(At + 10, 400), n => Assert.InRange(Math.Abs(ducked[n]), 0, 0.01));
    }

    [Fact]
    public void Mono_stays_mono_until_a_pan_makes_it_stereo()
    {
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav" },
            "buses": { "mono": { "from": { "a": 0 } }, "panned": { "from": { "a": { "level_db": 0, "pan_pct": 100 } } }, "wide": { "from": { "a": 0 }, "channels": "stereo" } },
            "prints": [ { "number": 1, "name": "Mono", "bus": "mono" }, { "number": 2, "name": "Panned", "bus": "panned", "optional": true }, { "number": 3, "name": "Wide", "bus": "wide", "optional": true } ]
            """, "\"pan_law_db\": -3");

        _session.Print(chain);

        Assert.Single(_session.Read("01_Mono_Test_v1.wav"));
        var panned = _session.Read("02_Panned_Test_v1.wav");
        Assert.Equal(0, panned[0][At]);
        Assert.Equal(0.5, panned[1][At], 1e-6);
        var wide = _session.Read("03_Wide_Test_v1.wav");
        Assert.Equal(0.5 * Math.Pow(10, -3 / 20.0), wide[0][At], 1e-6);
        Assert.Equal(wide[0][At], wide[1][At]);
    }

    [Fact]
    public void A_ride_lifts_a_feed_between_its_ends()
    {
        _session.Track("steady.wav", Enumerable.Repeat(0.1, 9600).ToArray());
        var chain = _session.Chain("""
            "tracks": { "steady": "steady.wav" },
            "buses": { "ridden": { "from": { "steady": { "level_db": 0, "ride": [ { "from_s": 0.05, "to_s": 0.1, "db": 6, "fade_ms": 10 } ] } } } },
            "prints": [ { "number": 1, "name": "Ridden", "bus": "ridden" } ]
            """);

        _session.Print(chain);

        var x = _session.Read("01_Ridden_Test_v1.wav")[0];
        var up = 0.1 * Math.Pow(10, 6 / 20.0);
        Assert.All(Enumerable.Range(0, 2400), n => Assert.Equal(0.1, x[n], 1e-6));
        Assert.All(Enumerable.Range(2880, 1920), n => Assert.Equal(up, x[n], 1e-6));
        Assert.All(Enumerable.Range(5280, 4000), n => Assert.Equal(0.1, x[n], 1e-6));
        Assert.InRange(x[2640], 0.14, 0.16);
    }

    [Fact]
    public void The_drum_bus_is_heard_on_the_second_rough_only()
    {
        var chain = _session.Chain("""
            "tracks": { "a": "a.wav" }, "buses": { "bus a": { "from": { "a": 0 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a" } ],
            "drum_bus": { "through": [ { "gain": { "level_db": -6 } } ] }
            """);

        _session.Print(chain);

        Assert.Equal(0.5, _session.Read("01_A_Test_v1.wav")[0][At], 1e-6);
        Assert.Equal(0.5, _session.Read("90_RoughPreBus_Test_v1.wav")[0][At], 1e-6);
        Assert.Equal(0.5 * Math.Pow(10, -6 / 20.0), _session.Read("91_RoughWithBus_Test_v1.wav")[0][At], 1e-6);
    }
}
