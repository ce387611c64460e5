using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>Link, key, key filter, make-up and mix.</summary>
public sealed class CompressListenTests
{
    private const int Frames = Run.SampleRate / 2;

    public static TheoryData<string> Topologies => ["feed_forward", "feedback"];

    [Theory]
    [MemberData(nameof(Topologies))]
    public void Full_link_turns_both_sides_down_by_what_the_louder_asks(string topology)
    {
        var (left, right) = SideGains(topology, 100);

        Assert.Equal(-15, left, DynamicsTolerance.LevelDb);
        Assert.Equal(-15, right, DynamicsTolerance.LevelDb);
    }

    [Theory]
    [MemberData(nameof(Topologies))]
    public void No_link_leaves_each_side_to_itself(string topology)
    {
        var (left, right) = SideGains(topology, 0);

        Assert.Equal(-15, left, DynamicsTolerance.LevelDb);
        Assert.Equal(-6, right, DynamicsTolerance.LevelDb);
    }

    [Theory]
    [MemberData(nameof(Topologies))]
    public void Part_link_draws_the_softer_side_that_part_of_the_way(string topology)
    {
        var (left, right) = SideGains(topology, 30);

        Assert.Equal(-15, left, DynamicsTolerance.LevelDb);
        Assert.Equal(-6 - (0.3 * 9), right, DynamicsTolerance.LevelDb);
    }

    [Theory]
    [MemberData(nameof(Topologies))]
    public void Key_alone_drives_the_gain(string topology)
    {
        var settings = Set(topology);

        var loudKey = Steady.GainDb(Compress.Definition, settings, Steady.Level(Frames, -50), Steady.Level(Frames, 0));
        var softKey = Steady.GainDb(Compress.Definition, settings, Steady.Level(Frames, 0), Steady.Level(Frames, -50));

        Assert.Equal(-15, loudKey[^1], DynamicsTolerance.LevelDb);
        Assert.Equal(0, softKey[^1], DynamicsTolerance.LevelDb);
    }

    [Fact]
    public void A_mono_key_drives_both_sides()
    {
        var output = Steady.Through(Compress.Definition, Set("feed_forward", (Compress.Link, 0.0)), [Steady.Level(Frames, -40), Steady.Level(Frames, -50)], key: [Steady.Level(Frames, 0)]);

        Assert.Equal(-55, Spectrum.Decibels(Math.Abs(output[0][^1])), DynamicsTolerance.LevelDb);
        Assert.Equal(-65, Spectrum.Decibels(Math.Abs(output[1][^1])), DynamicsTolerance.LevelDb);
    }

    [Fact]
    public void The_louder_side_of_a_stereo_key_drives_a_mono_signal()
    {
        var output = Steady.Through(Compress.Definition, Set("feed_forward"), [Steady.Level(Frames, -40)], key: [Steady.Level(Frames, -50), Steady.Level(Frames, 0)]);

        Assert.Equal(-55, Spectrum.Decibels(Math.Abs(output[0][^1])), DynamicsTolerance.LevelDb);
    }

    // Butterworth of order 2: |H|² = 1 / (1 + (fc/f)⁴); at half the corner −12.304 dB, at the corner −3.010 dB. The
    // bilinear map bends the frequency axis by a part in 10⁴ at these frequencies.
    [Theory]
    [InlineData("feed_forward", 100)]
    [InlineData("feed_forward", 200)]
    [InlineData("feed_forward", 800)]
    [InlineData("feedback", 100)]
    [InlineData("feedback", 200)]
    [InlineData("feedback", 800)]
    public void Key_high_pass_lowers_the_level_the_detector_sees_by_12_db_per_octave(string topology, double freqHz)
    {
        var settings = Set(topology, (Compress.KeyHighPass, 200.0), (Compress.Threshold, -40.0), (Compress.Release, 1000.0));
        var output = Run.Through(Compress.Definition, settings, [Signals.Sine(4 * Frames, freqHz)])[0];
        var seenDb = -10 * Math.Log10(1 + Math.Pow(200 / freqHz, 4));

        var gainDb = Spectrum.Decibels(output.Skip(3 * Frames).Max(Math.Abs));

        Assert.Equal(-0.75 * (40 + seenDb), gainDb, 2 * DynamicsTolerance.SineDb);
    }

    [Fact]
    public void Make_up_and_mix_are_added_after_the_gain_and_are_not_in_the_curve()
    {
        var settings = Set("feedback", (Compress.MakeUp, 6.0), (Compress.Mix, 40.0));
        var processor = (Compress)Compress.Definition.Create(settings, new ProcessorContext(new AudioFormat(Run.SampleRate, 1), Frames));
        var output = Steady.Through(processor, [Steady.Level(Frames, 0)])[0];

        var expected = 0.6 + (0.4 * Steady.Amplitude(6 - 15));

        Assert.Equal(Spectrum.Decibels(expected), Spectrum.Decibels(output[^1]), DynamicsTolerance.LevelDb);
        Assert.Equal(Steady.Amplitude(-15), processor.GainCurve.LowestGain[^1], 1e-5);
    }

    [Fact]
    public void Curve_shows_the_side_that_is_turned_down_most()
    {
        var processor = (Compress)Compress.Definition.Create(Set("feed_forward", (Compress.Link, 0.0)), new ProcessorContext(new AudioFormat(Run.SampleRate, 2), Frames));
        Steady.Through(processor, [Steady.Level(Frames, -12), Steady.Level(Frames, 0)]);

        Assert.Equal(Steady.Amplitude(-15), processor.GainCurve.LowestGain[^1], 1e-5);
    }

    private static (double Left, double Right) SideGains(string topology, double link)
    {
        double[][] input = [Steady.Level(Frames, 0), Steady.Level(Frames, -12)];
        var output = Steady.Through(Compress.Definition, Set(topology, (Compress.Link, link)), input);
        return (Steady.GainDb(input[0], output[0])[^1], Steady.GainDb(input[1], output[1])[^1]);
    }

    private static Settings Set(string topology, params (Parameter, object)[] more) => Settings.Of(
        Compress.Definition.Parameters,
        [(Compress.Topology, topology), (Compress.Knee, 0.0), .. more]);
}
