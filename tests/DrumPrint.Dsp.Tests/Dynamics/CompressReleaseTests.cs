using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>A reduction that stays, and a second release for what has lasted, against their step responses.</summary>
public sealed class CompressReleaseTests
{
    // 0 dBFS, 20 dB over the threshold at 4:1.
    private const double FullDb = -15;

    [Theory]
    [InlineData("feed_forward")]
    [InlineData("feedback")]
    public void A_hold_lets_the_same_release_begin_later(string topology)
    {
        const int End = 1000 + 9600;
        const int Hold = 2400;
        var input = Steady.Steps((1000, -40), (9600, 0), (24000, -40));
        (Parameter, object)[] dials = [(Compress.Topology, topology), (Compress.Attack, 1.0), (Compress.Release, 80.0)];

        var plain = GainDb(input, dials);
        var held = GainDb(input, [.. dials, (Compress.Hold, 50.0)]);

        Assert.All(Enumerable.Range(2000, End + Hold - 2010), n => Assert.Equal(FullDb, held[n], DynamicsTolerance.EdgeDb));
        Assert.All(Enumerable.Range(End + 20, 20000), n => Assert.Equal(plain[n], held[n + Hold], DynamicsTolerance.EdgeDb));
    }

    // R (1 − e^(−T / after)) e^(−t / release): one-pole steps, Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. (7).
    [Theory]
    [InlineData(50)]
    [InlineData(400)]
    [InlineData(2000)]
    public void The_longer_it_was_turned_down_the_more_comes_back_slowly(double lastedMs)
    {
        var lasted = Steady.Frames(lastedMs);
        var gain = GainDb(
            Steady.Steps((1000, -40), (lasted, 0), (96000, -40)),
            (Compress.Attack, 0.0),
            (Compress.Release, 0.0),
            (Compress.SlowRelease, 1000.0),
            (Compress.SlowAfter, 500.0));

        foreach (var ms in new[] { 20.0, 300, 1000, 1900 })
        {
            var expected = FullDb * (1 - Math.Exp(-lastedMs / 500)) * Math.Exp(-ms / 1000);
            Assert.Equal(expected, gain[1000 + lasted + Steady.Frames(ms)], DynamicsTolerance.StoreDb);
        }
    }

    [Fact]
    public void A_short_hit_comes_back_by_the_first_release()
    {
        var hit = Steady.Frames(10);
        var gain = GainDb(
            Steady.Steps((1000, -40), (hit, 0), (48000, -40)),
            (Compress.Attack, 0.1),
            (Compress.Release, 60.0),
            (Compress.SlowRelease, 2000.0));

        Assert.Equal(60, Steady.TimeMs(gain, 1000 + hit, g => g >= FullDb / Math.E), 60 * DynamicsTolerance.FeedForwardTime);
    }

    [Theory]
    [InlineData("feed_forward")]
    [InlineData("feedback")]
    public void What_stands_is_turned_down_as_far_as_ever(string topology)
    {
        var gain = GainDb(Steady.Level(96000, 0), (Compress.Topology, topology), (Compress.Hold, 30.0), (Compress.SlowRelease, 1500.0), (Compress.SlowAfter, 100.0));

        Assert.Equal(FullDb, gain[90000], DynamicsTolerance.LevelDb);
    }

    private static double[] GainDb(double[] input, params (Parameter, object)[] values) => Steady.GainDb(
        Compress.Definition,
        Settings.Of(Compress.Definition.Parameters, [(Compress.Threshold, -20.0), (Compress.Ratio, 4.0), (Compress.Knee, 0.0), .. values]),
        input);
}
