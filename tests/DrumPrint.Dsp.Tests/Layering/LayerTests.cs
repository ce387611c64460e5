using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Layering;

/// <summary>Sounds under hits whose places, levels and polarity are known.</summary>
public sealed class LayerTests
{
    private static readonly double[] Snare = LayerRuns.Drums["snare"];

    // Levels over 30 dB, noise at −80 dBFS, places at random between the frames.
    [Theory]
    [InlineData("snare")]
    [InlineData("kick")]
    [InlineData("tom")]
    [InlineData("noise burst")]
    [InlineData("bright click")]
    [InlineData("low click")]
    public void Every_hit_that_is_heard_gets_its_sound_within_a_tenth_of_a_frame(string drum)
    {
        var sound = LayerRuns.Drums[drum];
        var played = PlayedHits.Of(sound, 120, 30, 110, 21);
        played = played.Under(Signals.Noise(played.Track.Length, 5), 1e-4);

        var (heard, found, strange, worst) = LayerRuns.Judge(played, sound, (Layer.Open, -50.0));

        Assert.InRange(heard, 60, 120);
        Assert.Equal(heard, found);
        Assert.Equal(0, strange);
        Assert.InRange(worst, 0, 0.1);
    }

    [Fact]
    public void Another_drum_30_dB_down_gets_nothing_where_the_sound_is_a_hit_of_this_one()
    {
        var played = PlayedHits.Of(Snare, 100, 20, 130, 31);
        var kick = PlayedHits.Of(LayerRuns.Drums["kick"], 100, 12, 130, 32).Track;
        played = played.Under(kick, 0.03);

        var (heard, found, strange, worst) = LayerRuns.Judge(played, Snare, (Layer.Open, -50.0), (Layer.LeastMatch, 50.0));
        var unasked = LayerRuns.Judge(played, Snare, (Layer.Open, -50.0));

        Assert.Equal(heard, found);
        Assert.Equal(0, strange);
        Assert.InRange(worst, 0, 0.1);
        Assert.InRange(unasked.Strange, 5, 100);
    }

    [Fact]
    public void A_high_pass_in_the_key_makes_it_deaf_to_a_kick()
    {
        var played = PlayedHits.Of(Snare, 60, 10, 150, 41);
        var kick = PlayedHits.Of(PlayedHits.Drum(55, 60, 0, 1, 9), 60, 6, 150, 42).Track;

        var (heard, found, strange, _) = LayerRuns.Judge(played.Under(kick, 0.1), Snare, (Layer.Open, -36.0), (Layer.KeyHighPass, 1000.0));

        Assert.Equal((heard, 0), (found, strange));
    }

    // The track is the sound itself at whole frames, one after another: what comes out is the track again.
    [Fact]
    public void A_hit_under_itself_is_itself()
    {
        var track = new double[60000];
        foreach (var (at, height) in new[] { (5000, 1.0), (20011, 0.2), (40123, -0.5) })
        {
            for (var n = 0; n < Snare.Length; n++)
            {
                track[at + n] += height * Snare[n];
            }
        }

        var (output, hits) = LayerRuns.Through(track, Snare);

        Assert.Equal([false, false, true], hits.Select(h => h.IsInverted));
        Assert.InRange(Enumerable.Range(0, track.Length).Max(n => Math.Abs(track[n] - output[n])), 0, 1e-5);
    }

    [Fact]
    public void Between_frames_too_what_comes_out_lies_where_the_hit_does()
    {
        var played = PlayedHits.Of(Snare, 8, 20, 400, 51);

        var (output, _) = LayerRuns.Through(played.Track, Snare);

        Assert.All(played.Places, place => Assert.InRange(PlayedHits.Best(output, Snare, place, 3).Place - place, -0.02, 0.02));
    }

    // Two snares with nothing in common but their drum: the oracle is the coefficient of plain sums, of windows of 1 and 40 ms on either side of the beginning.
    [Fact]
    public void Another_sound_lies_where_the_correlation_is_best()
    {
        var other = PlayedHits.Drum(205, 60, 0.3, 40, 99);
        var played = PlayedHits.Of(Snare, 6, 20, 400, 61);
        var begins = (int)LayerRuns.Begins(other);

        var (_, hits) = LayerRuns.Through(played.Track, other);

        Assert.Equal(6, hits.Length);
        foreach (var hit in hits)
        {
            var best = PlayedHits.BestLike(played.Track, other[(begins - 48)..(begins + 1920)], hit.Frame - 48, 100);
            Assert.InRange(best.Place - (hit.Frame - 48), -0.1, 0.1);
            Assert.Equal(best.Sign < 0, hit.IsInverted);
        }
    }

    // The same drum, but other wires each time: its note would fit about as well half a period late and the other way round.
    [Fact]
    public void A_note_that_fits_twice_is_laid_where_the_hit_begins_and_never_turned_over()
    {
        double[] Hit(ulong seed)
        {
            var wires = Signals.Noise(4000, seed);
            return [.. Enumerable.Range(0, 14000).Select(n => (0.35 * Math.Exp(-n / 2880.0) * Math.Sin(2 * Math.PI * 187 * n / 48000)) + (n < 4000 ? 0.35 * Math.Exp(-n / 960.0) * wires[n] : 0))];
        }

        var track = new double[60 * 24000];
        for (var i = 0; i < 58; i++)
        {
            var (hit, height) = (Hit((ulong)(200 + i)), Math.Pow(10, -(i % 6) / 5.0));
            for (var n = 0; n < hit.Length; n++)
            {
                track[12000 + (i * 24000) + n] += height * hit[n];
            }
        }

        var (_, hits) = LayerRuns.Through(track, Hit(7));

        Assert.Equal(58, hits.Length);
        Assert.DoesNotContain(hits, h => h.IsInverted);
        Assert.All(hits.Select((h, i) => h.Frame - 12000 - (i * 24000)), off => Assert.InRange(off - hits[0].Frame + 12000, -48, 48));
    }

    [Theory]
    [InlineData(100, 0)]
    [InlineData(50, 0)]
    [InlineData(0, -12)]
    public void The_level_follows_the_hit_as_far_as_it_is_told(double follow, double steadyDb)
    {
        var played = PlayedHits.Of(Snare, 20, 30, 400, 71);
        var peakDb = Spectrum.Decibels(Snare.Max(Math.Abs));

        var (_, hits) = LayerRuns.Through(played.Track, Snare, (Layer.Open, -60.0), (Layer.Follow, follow), (Layer.SteadyLevel, steadyDb), (Layer.Level, 3.0));

        Assert.Equal(20, hits.Length);
        Assert.All(Enumerable.Range(0, 20), i => Assert.Equal(
            3 + (follow / 100 * Spectrum.Decibels(played.Heights[i])) + ((1 - (follow / 100)) * (steadyDb - peakDb)), hits[i].GainDb, 0.1));
    }

    [Theory]
    [InlineData("as_is", false)]
    [InlineData("inverted", true)]
    public void A_fixed_polarity_is_kept(string polarity, bool isInverted)
    {
        var played = PlayedHits.Of([.. Snare.Select(x => -x)], 5, 10, 400, 81);

        var (_, hits) = LayerRuns.Through(played.Track, Snare, (Layer.WayUp, polarity));

        Assert.Equal(5, hits.Length);
        Assert.All(hits, h => Assert.Equal(isInverted, h.IsInverted));
    }

    [Fact]
    public void Hits_of_the_key_alone_get_nothing()
    {
        var played = PlayedHits.Of(Snare, 10, 0, 300, 91);
        var half = played.Track.Length / 2;
        double[] track = [.. played.Track.Select((x, n) => n < half ? x : 0)];

        var (_, hits) = LayerRuns.Through(track, Snare, key: played.Track);

        Assert.Equal(played.Places.Count(p => p < half), hits.Length);
    }

    [Fact]
    public void A_stretch_of_the_take_can_be_the_sound()
    {
        var played = PlayedHits.Of(Snare, 10, 20, 300, 101);
        var first = played.Places[0] / Run.SampleRate;

        var (_, hits) = LayerRuns.Through(played.Track, played.Track, (Layer.From, first - 0.01), (Layer.To, first + 0.15));

        Assert.Equal(10, hits.Length);
        Assert.All(Enumerable.Range(1, 9), i => Assert.Equal(played.Places[i] - played.Places[0], hits[i].Frame - hits[0].Frame, 0.05));
    }

    [Fact]
    public void The_mix_lays_the_sound_under_the_track()
    {
        var played = PlayedHits.Of(Snare, 5, 10, 300, 111);

        var layer = LayerRuns.Through(played.Track, Snare).Output;
        var both = LayerRuns.Through(played.Track, Snare, (Layer.Mix, 40.0)).Output;

        Assert.All(Enumerable.Range(0, layer.Length), n => Assert.Equal((0.6 * (n < played.Track.Length ? played.Track[n] : 0)) + (0.4 * layer[n]), both[n], 1e-12));
    }

    [Fact]
    public void What_cannot_be_played_is_refused_by_name()
    {
        Assert.Contains("silent", Assert.Throws<SettingsException>(() => LayerRuns.Make(new double[100], 100, 0)).Message, StringComparison.Ordinal);
        Assert.Same(Layer.From, Assert.Throws<SettingsException>(() => LayerRuns.Make(Snare, 100, 0, (Layer.From, 9.0))).Parameter);
        var four = new Dictionary<string, Impulse> { ["sound"] = new("sound", 48000, ImpulseLayout.TrueStereo, [Snare, Snare, Snare, Snare]) };
        var settings = Layer.Definition.With((Layer.Sound, "sound")).Settings;
        Assert.Contains("four channels", Assert.Throws<SettingsException>(() => Layer.Definition.Create(settings, new ProcessorContext(new AudioFormat(48000, 2), 100, 0, four))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_stereo_sound_makes_a_mono_bus_stereo()
    {
        var impulses = new Dictionary<string, Impulse> { ["sound"] = new("sound", 48000, ImpulseLayout.Stereo, [Snare, [.. Snare.Select(x => x / 2)]]) };
        var played = PlayedHits.Of(Snare, 4, 10, 300, 121);

        var output = Run.Through(Layer.Definition, Layer.Definition.With((Layer.Sound, "sound")).Settings, [played.Track], extraFrames: 20000, impulses: impulses);

        Assert.Equal(2, output.Length);
        Assert.All(Enumerable.Range(0, output[0].Length), n => Assert.Equal(output[0][n] / 2, output[1][n], 1e-12));
        Assert.InRange(output[0].Max(Math.Abs), 0.1, 2);
    }
}
