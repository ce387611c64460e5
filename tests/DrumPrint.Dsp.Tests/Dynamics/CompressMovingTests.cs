using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>Times that move with the crest factor and with depth, against their formulas worked out beside them.</summary>
public sealed class CompressMovingTests
{
    // Between two levels the wave is read at points of its own.
    private static readonly int[] Edges = [4800, 24000, 48000, 48960];

    // Giannoulis, Massberg and Reiss, JAES 61(10), 2013 (from memory): C² from a peak and a mean square of 200 ms, attack 2 A / C², release 2 R / C² − attack,
    // in the detector of JAES 60(6), 2012, eq. (17).
    [Theory]
    [InlineData(80, 1000)]
    [InlineData(10, 200)]
    public void Attack_and_release_are_those_of_the_crest_factor(double attackMs, double releaseMs)
    {
        var input = Steady.Steps((4800, -40), (19200, 0), (24000, -40), (960, -2), (24000, -40));

        var gain = GainDb(input, (Compress.Times, "by_crest"), (Compress.Attack, attackMs), (Compress.Release, releaseMs));

        var expected = MovingDetector.ByCrest(input, attackMs, releaseMs, -20, 4);
        Assert.All(Enumerable.Range(0, input.Length).Where(n => !Edges.Any(e => Math.Abs(n - e) <= 40)), n => Assert.Equal(-expected[n], gain[n], DynamicsTolerance.MovingDb));
        Assert.InRange(gain.Min(), -15.1, -2);
    }

    [Fact]
    public void A_click_gets_a_shorter_release_than_a_tone()
    {
        double ReleaseMs(int lastedMs)
        {
            var lasted = Steady.Frames(lastedMs);
            var gain = GainDb(Steady.Steps((4800, -40), (lasted, 0), (96000, -40)), (Compress.Times, "by_crest"), (Compress.Attack, 2.0), (Compress.Release, 400.0));
            var deepest = gain.Min();
            return Steady.TimeMs(gain, 4800 + lasted, g => g >= deepest / Math.E);
        }

        Assert.InRange(ReleaseMs(5), 0, ReleaseMs(800) / 4);
    }

    // The solution of dR/dt = −(R / τ)(1 + R / D).
    [Theory]
    [InlineData(3)]
    [InlineData(10)]
    [InlineData(40)]
    public void Depth_hastens_a_release_by_its_formula(double deepDb)
    {
        const int End = 1000 + 9600;
        const double Tau = 200;
        var gain = GainDb(Steady.Steps((1000, -40), (9600, 0), (48000, -40)), (Compress.Attack, 0.0), (Compress.Release, Tau), (Compress.Deep, deepDb));

        foreach (var ms in new[] { 10.0, 50, 150, 400, 800 })
        {
            var left = Math.Exp(-ms / Tau);
            var expected = -15 * left / (1 + ((1 - left) * 15 / deepDb));
            Assert.Equal(expected, gain[End + Steady.Frames(ms)], DynamicsTolerance.MovingDb);
        }
    }

    [Fact]
    public void What_stands_is_turned_down_as_far_as_ever()
    {
        Assert.Equal(-15, GainDb(Steady.Level(96000, 0), (Compress.Times, "by_crest"), (Compress.Deep, 6.0))[90000], DynamicsTolerance.LevelDb);
    }

    [Fact]
    public void The_loop_keeps_the_times_it_is_given()
    {
        foreach (var (parameter, value) in new (Parameter, object)[] { (Compress.Times, "by_crest"), (Compress.Deep, 6.0) })
        {
            var refused = Assert.Throws<SettingsException>(() => GainDb(Steady.Level(100, 0), (Compress.Topology, "feedback"), (parameter, value)));

            Assert.Same(parameter, refused.Parameter);
        }
    }

    // A sine through a filter of the key is heard as the filter's formula says: 12 dB an octave Butterworth, and the cookbook's bell.
    [Theory]
    [InlineData(4000, 1000.0, null, 0, -24.099)]
    [InlineData(1000, 1000.0, null, 0, -3.0103)]
    [InlineData(500, null, 500.0, 9, 9)]
    [InlineData(500, null, 500.0, -12, -12)]
    public void The_key_hears_through_its_low_pass_and_its_bell(double freqHz, double? lowPassHz, double? bellHz, double bellDb, double heardDb)
    {
        var values = new List<(Parameter, object)> { (Compress.Threshold, -40.0), (Compress.Ratio, 4.0), (Compress.Release, 1000.0), (Compress.KeyBellGain, bellDb) };
        if (lowPassHz is { } low)
        {
            values.Add((Compress.KeyLowPass, low));
        }

        if (bellHz is { } bell)
        {
            values.Add((Compress.KeyBell, bell));
        }

        var output = Run.Through(Compress.Definition, Settings.Of(Compress.Definition.Parameters, [(Compress.Knee, 0.0), .. values]), [Signals.Sine(96000, freqHz, 0.5)])[0];

        var turned = Spectrum.Decibels(output.Skip(72000).Max(Math.Abs) / 0.5);
        Assert.Equal(heardDb, (turned / -0.75) - 40 + 6.0206, 0.1);
    }

    private static double[] GainDb(double[] input, params (Parameter, object)[] values) => Steady.GainDb(
        Compress.Definition,
        Settings.Of(Compress.Definition.Parameters, [(Compress.Threshold, -20.0), (Compress.Ratio, 4.0), (Compress.Knee, 0.0), .. values]),
        input);
}
