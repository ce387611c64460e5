using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>The gate as a table of level steps, and on hits. One opening and one closing for a hit is the test of
/// Terrell, Reiss and Sandler, EURASIP JASP 2010, 465417. Two levels are tested as a Schmitt trigger.</summary>
public sealed class GateTests
{
    private const double OpenDb = -30;
    private const double CloseDb = -36;
    private const double RangeDb = -40;
    private const int Attack = 96;
    private const int Hold = 960;
    private const int Release = 4800;
    private const int At = 1000;

    [Fact]
    public void Opens_at_the_open_level_and_not_a_hair_below()
    {
        var below = GainDb(Set(), Steady.Level(4800, OpenDb - 0.001));
        var at = GainDb(Set(), Steady.Level(4800, OpenDb));

        Assert.All(below, g => Assert.Equal(RangeDb, g, DynamicsTolerance.StandingDb));
        Assert.Equal(0, at[Steady.RiseFrames + Attack], DynamicsTolerance.StandingDb);
    }

    [Theory]
    [InlineData(44100)]
    [InlineData(48000)]
    [InlineData(96000)]
    public void Opens_at_the_peak_of_the_wave_wherever_its_samples_lie(int sampleRate)
    {
        foreach (var freqHz in new[] { 6000, 8000, 12000, 16000, 19200 })
        {
            for (var phase = 0; phase < 8; phase++)
            {
                double Last(double db)
                {
                    var sine = Signals.Sine(9600, freqHz, Steady.Amplitude(db), phase * Math.PI / 8, sampleRate);
                    var faded = sine.Select((x, n) => x * Math.Min(1, n / 4800.0)).ToArray();
                    var output = Run.Through(Gate.Definition, Set((Gate.Open, -6.0)), [faded], sampleRate: sampleRate)[0];
                    return output.Skip(8000).Max(Math.Abs);
                }

                Assert.True(Last(-5.95) > 0.3);
                Assert.True(Last(-6.05) < 0.01);
            }
        }
    }

    [Fact]
    public void Is_fully_open_exactly_the_attack_after_the_hit_along_a_raised_cosine()
    {
        var input = Steady.Steps((At, -80), (2000, -10));
        var gain = GainDb(Set(), input);

        var first = Steady.FirstAtLeast(input, OpenDb);
        Assert.InRange(first, At - Steady.EdgeFrames, At);
        for (var i = 0; i <= Attack; i++)
        {
            var floor = Steady.Amplitude(RangeDb);
            var expected = floor + ((1 - floor) * (1 - Math.Cos(Math.PI * i / Attack)) / 2);
            Assert.Equal(expected, Steady.Amplitude(gain[first + i]), DynamicsTolerance.Ramp);
        }

        Assert.True(gain[first + Attack - 1] < 0);
        Assert.All(gain[(first + Attack)..], g => Assert.Equal(0, g));
    }

    [Fact]
    public void Holds_and_releases_to_the_frame_along_a_straight_line_in_dB()
    {
        var input = Steady.Steps((At, -80), (2000, -10), (Hold + Release + 100, CloseDb - 2));
        var gain = GainDb(Set(), input);

        var last = Steady.LastAtLeast(input, CloseDb);
        Assert.InRange(last, At + 2000 - Steady.EdgeFrames, At + 2000 + Steady.EdgeFrames);
        Assert.All(gain[(At + Attack)..(last + Hold + 1)], g => Assert.Equal(0, g));
        for (var i = 1; i <= Release; i++)
        {
            Assert.Equal(RangeDb * i / Release, gain[last + Hold + i], DynamicsTolerance.StandingDb);
        }

        Assert.All(gain[(last + Hold + Release)..], g => Assert.Equal(RangeDb, g, DynamicsTolerance.StandingDb));
    }

    [Theory]
    [InlineData(-120)]
    [InlineData(-14)]
    [InlineData(-0.5)]
    public void Range_is_exact(double rangeDb)
    {
        var gain = GainDb(Set((Gate.Range, rangeDb)), Steady.Level(1000, -80));

        Assert.All(gain, g => Assert.Equal(rangeDb, g, DynamicsTolerance.StandingDb));
    }

    [Fact]
    public void A_level_wavering_between_close_and_open_changes_nothing()
    {
        var waver = Enumerable.Repeat(new[] { (700, OpenDb - 0.01), (Hold - 20, CloseDb - 10), (300, CloseDb + 0.01) }, 10).SelectMany(s => s).ToArray();
        var open = GainDb(Set(), Steady.Steps([(500, OpenDb), .. waver]));
        var closed = GainDb(Set(), Steady.Steps([(500, -80), .. waver]));

        Assert.All(open[(Steady.RiseFrames + Attack)..], g => Assert.Equal(0, g));
        Assert.All(closed, g => Assert.Equal(RangeDb, g, DynamicsTolerance.StandingDb));
    }

    [Fact]
    public void A_hit_during_the_release_turns_the_gain_around_where_it_is()
    {
        var input = Steady.Steps((1000, -10), (Hold + (Release / 2), -80), (1000, -10));
        var gain = GainDb(Set(), input);
        var again = Steady.FirstAtLeast(input, OpenDb, from: 1000 + Steady.EdgeFrames);

        Assert.Equal(gain[again - 1], gain[again], DynamicsTolerance.StandingDb);
        Assert.True(gain[again + 1] > gain[again]);
        Assert.True(gain[again + Attack - 1] < 0);
        Assert.Equal(0, gain[again + Attack]);
    }

    [Fact]
    public void Swept_bursts_open_and_close_once_each()
    {
        var input = new double[6 * Run.SampleRate];
        var bursts = 0;
        for (var freq = 40.0; freq < 12000; freq *= 1.5, bursts++)
        {
            var start = 2000 + (bursts * Run.SampleRate / 3);
            for (var i = 0; i < 5 * Run.SampleRate / 60; i++)
            {
                input[start + i] = Math.Exp(-i / 1200.0) * Math.Sin((2 * Math.PI * freq * i / Run.SampleRate) + 0.3);
            }
        }

        var (opened, closed) = Moves(Set((Gate.Hold, 15.0), (Gate.Release, 60.0)), input);

        Assert.Equal(bursts, opened);
        Assert.Equal(bursts, closed);
    }

    [Fact]
    public void Hits_with_ghost_notes_between_open_once_each_and_the_ghosts_stay_down()
    {
        var (input, hits) = Beat(ghostDb: -40);

        var (opened, closed) = Moves(Set((Gate.Ahead, 1.0)), input);
        var output = Steady.Through(Gate.Definition, Set((Gate.Ahead, 1.0)), [input])[0];

        Assert.Equal(hits.Length, opened);
        Assert.Equal(hits.Length, closed);
        foreach (var hit in hits)
        {
            var ghost = hit + (Run.SampleRate / 4);
            for (var n = ghost; n < ghost + 480; n++)
            {
                Assert.Equal(input[n] * Steady.Amplitude(RangeDb), output[n], 1e-12);
            }
        }
    }

    [Fact]
    public void Look_ahead_lets_the_whole_hit_through_and_is_taken_out_again()
    {
        var (input, hits) = Beat(ghostDb: -40);
        var settings = Set((Gate.Ahead, 2.0), (Gate.Attack, 2.0));
        var gate = Gate.Definition.Create(settings, new ProcessorContext(new AudioFormat(Run.SampleRate, 1), input.Length));
        var output = Run.Through(gate, [input], 1, extraFrames: gate.LatencyFrames)[0][gate.LatencyFrames..];

        var without = Gate.Definition.Create(Set(), new ProcessorContext(new AudioFormat(Run.SampleRate, 1), input.Length));
        Assert.Equal(96, gate.LatencyFrames - without.LatencyFrames);
        foreach (var hit in hits)
        {
            var before = input[hit..(hit + 240)];
            var after = output[hit..(hit + 240)];
            Assert.True(after.Max(Math.Abs) >= 0.999 * before.Max(Math.Abs));
            var db = 10 * Math.Log10(after.Sum(y => y * y) / before.Sum(x => x * x));
            Assert.Equal(0, db, 0.1);
        }
    }

    [Fact]
    public void Look_ahead_starts_early_by_itself_and_keeps_hold_and_release_in_place()
    {
        const int Ahead = 48;
        var input = Steady.Steps((At, -80), (2000, -10), (Hold + Release + 100, -80));

        var gain = GainDb(Set((Gate.Ahead, 1.0)), input);

        var first = Steady.FirstAtLeast(input, OpenDb);
        var last = Steady.LastAtLeast(input, CloseDb);
        Assert.Equal(RangeDb, gain[first - Ahead], DynamicsTolerance.StandingDb);
        Assert.True(gain[first - Ahead + 1] > RangeDb);
        Assert.Equal(0, gain[first - Ahead + Attack]);
        Assert.Equal(0, gain[last + Hold]);
        Assert.True(gain[last + Hold + 1] < 0);
        Assert.Equal(RangeDb, gain[last + Hold + Release], DynamicsTolerance.StandingDb);
    }

    [Fact]
    public void Curve_is_in_time_with_the_sound_once_the_latency_is_out()
    {
        var input = Steady.Steps((4800, -80), (4800, -10));
        var gate = (Gate)Gate.Definition.Create(Set((Gate.Ahead, 10.0), (Gate.Attack, 0.0)), new ProcessorContext(new AudioFormat(Run.SampleRate, 1), input.Length));
        Run.Through(gate, [input], 1, extraFrames: gate.LatencyFrames);

        Assert.Equal(Steady.Amplitude(RangeDb), gate.GainCurve.LowestGain[8], 1e-7);
        Assert.Equal(1, gate.GainCurve.LowestGain[9]);
    }

    [Fact]
    public void Both_sides_share_one_gain()
    {
        var output = Steady.Through(Gate.Definition, Set(), [Steady.Level(1000, -60), Steady.Level(1000, -10)]);

        Assert.Equal(-60, Spectrum.Decibels(Math.Abs(output[0][^1])), DynamicsTolerance.StandingDb);
    }

    [Fact]
    public void A_key_alone_opens_it_the_look_ahead_before_its_hit()
    {
        var signal = Steady.Level(4000, -60);
        var key = Steady.Steps((At, -80), (3000, -10));

        var output = Steady.Through(Gate.Definition, Set((Gate.Ahead, 1.0)), [signal], [key])[0];

        var first = Steady.FirstAtLeast(key, OpenDb) - 48;
        Assert.Equal(Steady.Amplitude(-60 + RangeDb), Math.Abs(output[first]), 1e-12);
        Assert.True(Math.Abs(output[first + Attack - 1]) < Steady.Amplitude(-60) - 1e-12);
        Assert.Equal(Steady.Amplitude(-60), Math.Abs(output[first + Attack]), 1e-12);
    }

    [Fact]
    public void Key_filters_make_it_deaf_outside_their_band_by_12_db_per_octave()
    {
        var settings = Set((Gate.KeyHighPass, 200.0), (Gate.KeyLowPass, 2000.0));

        // An octave outside, second-order Butterworth is 12.3 dB down; the other filter adds less than 0.01 dB.
        foreach (var freq in new double[] { 100, 4000 })
        {
            Assert.Equal(RangeDb, LastGainDb(settings, freq, OpenDb + 12), 1e-6);
            Assert.Equal(0, LastGainDb(settings, freq, OpenDb + 12.8), 1e-6);
        }

        Assert.Equal(0, LastGainDb(settings, 632, OpenDb + 0.3), 1e-6);
    }

    [Fact]
    public void Close_above_open_is_refused_in_words()
    {
        var problem = Assert.Throws<SettingsException>(() => GainDb(Set((Gate.Close, -20.0)), Steady.Level(10, 0)));

        Assert.Same(Gate.Close, problem.Parameter);
        Assert.Equal("'close_db' is −20 dB, above 'open_db' at −30 dB; a gate that closes above the level it opens at would never stay open. Set 'close_db' to −30 dB or less.", problem.Message);
    }

    [Fact]
    public void Close_follows_open_by_6_db_when_not_given()
    {
        var settings = Settings.Of(Gate.Definition.Parameters, (Gate.Open, -50.0), (Gate.Hold, 0.0), (Gate.Release, 0.0));

        var gain = GainDb(settings, Steady.Steps((100, -49), (100, -55.9), (100, -56.1)));

        Assert.Equal(0, gain[199 - Steady.EdgeFrames]);
        Assert.Equal(-60, gain[200 + Steady.EdgeFrames], DynamicsTolerance.StandingDb);
    }

    private static double LastGainDb(Settings settings, double freqHz, double levelDb)
    {
        // Faded in, or the filters' answer to the start would open the gate.
        var input = Signals.Sine(9600, freqHz, Steady.Amplitude(levelDb), 0.1);
        for (var n = 0; n < 4800; n++)
        {
            input[n] *= n / 4800.0;
        }

        return GainDb(settings, input)[^300];
    }

    private static (int Opened, int Closed) Moves(Settings settings, double[] input)
    {
        var padded = Array.ConvertAll(input, x => x == 0 ? 1e-9 : x);
        var gain = GainDb(settings, padded);
        var opened = 0;
        var closed = 0;
        for (var n = 1; n < gain.Length; n++)
        {
            opened += gain[n] > -0.001 && gain[n - 1] <= -0.001 ? 1 : 0;
            closed += gain[n] < RangeDb + 0.001 && gain[n - 1] >= RangeDb + 0.001 ? 1 : 0;
        }

        return (opened, closed);
    }

    // A backbeat every half second, a ghost note between, spill all the time.
    private static (double[] Signal, int[] Hits) Beat(double ghostDb)
    {
        var input = Signals.Noise(4 * Run.SampleRate, 5, Steady.Amplitude(-50));
        var noise = Signals.Noise(input.Length, 6);
        var hits = Enumerable.Range(0, 8).Select(i => 1000 + (i * Run.SampleRate / 2)).ToArray();
        foreach (var hit in hits)
        {
            for (var i = 0; i < 9600; i++)
            {
                var attack = Math.Min(1, (i + 1) / 8.0);
                var shell = Math.Sin(2 * Math.PI * 198 * i / Run.SampleRate);
                input[hit + i] += attack * ((0.5 * Math.Exp(-i / 900.0) * noise[hit + i]) + (0.3 * Math.Exp(-i / 1500.0) * shell));
                input[hit + 12000 + i] += Steady.Amplitude(ghostDb) * attack * Math.Exp(-i / 900.0) * noise[hit + 12000 + i];
            }
        }

        return (input, hits);
    }

    private static double[] GainDb(Settings settings, double[] input) => Steady.GainDb(Gate.Definition, settings, input);

    private static Settings Set(params (Parameter, object)[] more) => Settings.Of(
        Gate.Definition.Parameters,
        [
            (Gate.Open, OpenDb), (Gate.Close, CloseDb), (Gate.Range, RangeDb), (Gate.Attack, 2.0), (Gate.Hold, 20.0), (Gate.Release, 100.0),
            .. more,
        ]);
}
