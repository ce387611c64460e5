using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Spectral;

/// <summary>What an impulse is made into before it is used.</summary>
public sealed class ConvolveShapeTests
{
    // As asked for; table A.1 of ISO 3382-1:2009 gives 5 % as the smallest difference heard.
    private const double DecayPct = 5;

    // Own bar: rounding of transforms of 2¹⁸ points, squared up.
    private const double Rounding = 1e-9;

    private static readonly Impulse Room = new("room", Run.SampleRate, ImpulseLayout.Stereo, [Decaying(96000, 1, 1.2), Decaying(96000, 2, 1.2)]);

    [Fact]
    public void What_asks_for_nothing_leaves_every_bit()
    {
        var plain = Response(Room);

        var asked = Response(
            Room,
            Convolve.Octaves.To(Convolve.Octave.With(Convolve.Octave.Freq.To(500)), Convolve.Octave.With(Convolve.Octave.Freq.To(2000), Convolve.Octave.Level.To(0))),
            Convolve.Early.To(0),
            Convolve.Late.To(0),
            Convolve.Split.To(40),
            Convolve.Reversed.To(false));

        Assert.Equal(plain, asked);
    }

    [Fact]
    public void Every_octave_decays_as_asked_within_5_percent()
    {
        (double Hz, double Pct)[] asked = [(63, 140), (125, 130), (250, 110), (500, 90), (1000, 75), (2000, 60), (4000, 50), (8000, 42), (16000, 36)];

        var before = Response(Room);
        var after = Response(Room, Convolve.Octaves.To([.. asked.Select(a => Convolve.Octave.With(Convolve.Octave.Freq.To(a.Hz), Convolve.Octave.Decay.To(a.Pct)))]));

        foreach (var (hz, pct) in asked)
        {
            Assert.InRange(100 * T30(after, hz) / T30(before, hz) / pct * 100, 100 - DecayPct, 100 + DecayPct);
        }
    }

    [Fact]
    public void An_octave_decays_in_the_seconds_asked_for()
    {
        (double Hz, double Seconds)[] asked = [(125, 1.2), (250, 1.0), (500, 0.8), (1000, 0.65), (2000, 0.5), (4000, 0.42), (8000, 0.35), (16000, 0.3)];

        var after = Response(Room, Convolve.Octaves.To([.. asked.Select(a => Convolve.Octave.With(Convolve.Octave.Freq.To(a.Hz), Convolve.Octave.Seconds.To(a.Seconds)))]));

        Assert.All(asked, a => Assert.InRange(100 * T30(after, a.Hz) / a.Seconds, 100 - DecayPct, 100 + DecayPct));
    }

    [Fact]
    public void Before_the_first_sound_nothing_is_added()
    {
        var late = Room with { Channels = [.. Room.Channels.Select(c => (double[])[.. new double[2000], .. c])] };

        var after = Response(
            late,
            Convolve.Octaves.To(
                Convolve.Octave.With(Convolve.Octave.Freq.To(125), Convolve.Octave.Level.To(9)),
                Convolve.Octave.With(Convolve.Octave.Freq.To(250), Convolve.Octave.Decay.To(80))));

        Assert.InRange(after[0][..2000].Max(Math.Abs) / after[0].Max(Math.Abs), 0, Rounding);
    }

    [Fact]
    public void An_octave_is_as_much_louder_as_asked_and_those_beside_it_stay()
    {
        var click = Click();

        var after = Response(click, Convolve.Octaves.To(Convolve.Octave.With(Convolve.Octave.Freq.To(1000), Convolve.Octave.Level.To(-9))))[0];

        Assert.Equal(-9, Spectrum.Decibels(Spectrum.ResponseAt(after, 1000, Run.SampleRate).Magnitude), 0.01);
        Assert.Equal(-4.5, Spectrum.Decibels(Spectrum.ResponseAt(after, 1000 * Math.Sqrt(2), Run.SampleRate).Magnitude), 0.01);
        Assert.All(new[] { 125, 250, 500, 2000, 4000, 8000 }, hz => Assert.Equal(0, Spectrum.Decibels(Spectrum.ResponseAt(after, hz, Run.SampleRate).Magnitude), 0.01));
    }

    [Fact]
    public void Early_and_late_part_get_a_level_each()
    {
        var two = new Impulse("two", Run.SampleRate, ImpulseLayout.Mono, [new double[24000]]);
        (two.Channels[0][480], two.Channels[0][480 + 9600]) = (1, 0.5);

        var after = Response(two, Convolve.Early.To(-6), Convolve.Late.To(3), Convolve.Split.To(100))[0];

        Assert.Equal(-6, Spectrum.Decibels(after[480]), Rounding);
        Assert.Equal(3, Spectrum.Decibels(after[480 + 9600] / 0.5), Rounding);

        // Half of each in the middle, 100 ms after the first sound.
        two.Channels[0][480 + 4800] = 0.5;
        Assert.Equal(Run.SampleRate, two.SampleRate);
        var middle = Response(two with { Name = "three" }, Convolve.Early.To(-6), Convolve.Late.To(3), Convolve.Split.To(100))[0][480 + 4800] / 0.5;
        Assert.Equal((Math.Pow(10, -6 / 20.0) + Math.Pow(10, 3 / 20.0)) / 2, middle, Rounding);
    }

    [Fact]
    public void Reversed_it_is_the_impulse_from_its_end()
    {
        var h = Decaying(700, 13, 0.01);

        var after = Response(new Impulse("short", Run.SampleRate, ImpulseLayout.Mono, [h]), Convolve.Reversed.To(true))[0];

        Assert.All(Enumerable.Range(0, 700), n => Assert.Equal(h[699 - n], after[n], Rounding));
    }

    // Butterworth of the second order: |H|² = 1 / (1 + (f/f₀)⁴).
    [Fact]
    public void High_and_low_pass_fall_as_Butterworth_has_it()
    {
        var after = Response(Click(), Convolve.HighPass.To(200), Convolve.LowPass.To(5000))[0];

        foreach (var hz in new[] { 50.0, 100, 200, 400, 1000, 2500, 5000, 8000 })
        {
            var want = -10 * Math.Log10((1 + Math.Pow(200 / hz, 4)) * (1 + Math.Pow(hz / 5000, 4)));
            Assert.Equal(want, Spectrum.Decibels(Spectrum.ResponseAt(after, hz, Run.SampleRate).Magnitude), 0.4);
        }
    }

    [Fact]
    public void Filters_that_are_kept_hang_on_every_setting()
    {
        var designs = new DesignMemory();
        (Parameter, object)[][] all =
        [
            [],
            [Convolve.Octaves.To(Convolve.Octave.With(Convolve.Octave.Freq.To(500), Convolve.Octave.Decay.To(90)))],
            [Convolve.Octaves.To(Convolve.Octave.With(Convolve.Octave.Freq.To(500), Convolve.Octave.Level.To(1)))],
            [Convolve.Octaves.To(Convolve.Octave.With(Convolve.Octave.Freq.To(1000), Convolve.Octave.Level.To(1)))],
            [Convolve.Early.To(1)],
            [Convolve.Late.To(1)],
            [Convolve.Late.To(1), Convolve.Split.To(30)],
            [Convolve.HighPass.To(100)],
            [Convolve.LowPass.To(100)],
            [Convolve.Reversed.To(true)],
            [Convolve.Fade.To(10)],
            [Convolve.TrimStart.To(1)],
            [Convolve.TrimEnd.To(1)],
            [Convolve.DecayTarget.To(1)],
        ];

        var sounds = all.Select(settings => Response(Room, designs, settings)[0]).ToArray();

        Assert.Equal(all.Length, sounds.Select(s => s.Sum(x => x * x) + s[100]).Distinct().Count());
        Assert.Equal(sounds[0], Response(Room, designs)[0]);
    }

    [Fact]
    public void What_cannot_be_had_is_refused_in_words()
    {
        AssertRefused("twice", Convolve.Octave.With(Convolve.Octave.Freq.To(500)), Convolve.Octave.With(Convolve.Octave.Freq.To(500)));
        AssertRefused("2.4", Convolve.Octave.With(Convolve.Octave.Freq.To(500), Convolve.Octave.Seconds.To(5)));
        AssertRefused("octaves beside it", Convolve.Octave.With(Convolve.Octave.Freq.To(1000), Convolve.Octave.Decay.To(10)));
    }

    private static void AssertRefused(string words, params Item[] octaves)
    {
        var refusal = Assert.Throws<SettingsException>(() => Response(Room, Convolve.Octaves.To(octaves)));

        Assert.Same(Convolve.Octaves, refusal.Parameter);
        Assert.Contains(words, refusal.Message, StringComparison.Ordinal);
    }

    private static double T30(double[][] channels, double middleHz) =>
        ConvolveTests.SchroederT30([.. channels.Select(c => OctaveFilter.Through(c, middleHz is 63 ? 62.5 : middleHz))], Run.SampleRate);

    private static Impulse Click() => new("click", Run.SampleRate, ImpulseLayout.Mono, [Signals.Impulse(24000)]);

    private static double[][] Response(Impulse impulse, params (Parameter, object)[] settings) => Response(impulse, new DesignMemory(), settings);

    // What a click makes of it, used as it is; as long as the impulse.
    private static double[][] Response(Impulse impulse, DesignMemory designs, params (Parameter, object)[] settings)
    {
        var context = new ProcessorContext(new AudioFormat(Run.SampleRate, impulse.Channels.Length), 0, 0, new Dictionary<string, Impulse> { [impulse.Name] = impulse }) { Designs = designs };
        var processor = Convolve.Definition.Create(Convolve.Definition.With([(Convolve.ImpulseName, impulse.Name), (Convolve.Level, "as_is"), .. settings]).Settings, context);
        double[][] click = [.. impulse.Channels.Select(_ => Signals.Impulse(impulse.Frames))];
        return Array.ConvertAll(Run.Through(processor, click, click.Length, 4800, processor.LatencyFrames), c => c[processor.LatencyFrames..]);
    }

    // Noise falling by 60 dB in the given time.
    private static double[] Decaying(int frames, ulong seed, double seconds) =>
        [.. Signals.Noise(frames, seed).Select((x, n) => x * Math.Pow(10, -3.0 * n / (seconds * Run.SampleRate)))];
}
