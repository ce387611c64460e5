using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>What a fully linked detector reads of two sides.</summary>
public sealed class CompressLinkTests
{
    private const double ThresholdDb = -30;
    private const double Ratio = 5;

    // A level of −6 dBFS on one side: with L and R in the formulas (L² + R²) / 2 and (L + R) / 2.
    [Theory]
    [InlineData("larger", "feed_forward", -6)]
    [InlineData("sum", "feed_forward", -9.01030)]
    [InlineData("mid", "feed_forward", -12.02060)]
    [InlineData("sum", "feedback", -9.01030)]
    public void A_level_on_one_side_counts_as_the_link_says(string by, string topology, double heardDb)
    {
        var output = Through(by, [Steady.Level(48000, -6), new double[48000]], (Compress.Topology, topology));

        var reduction = (heardDb - ThresholdDb) * (1 - (1 / Ratio));
        Assert.Equal(-6 - reduction, Spectrum.Decibels(output[0][40000]), DynamicsTolerance.LevelDb);
    }

    [Theory]
    [InlineData("sum")]
    [InlineData("mid")]
    public void What_is_the_same_on_both_sides_is_turned_down_as_ever(string by)
    {
        var input = Signals.Hits(20000, 6000, 900, seed: 4);

        Assert.Equal(Through("larger", [input, input]), Through(by, [input, input]));
    }

    [Fact]
    public void What_is_only_side_is_not_heard_by_the_mid()
    {
        var input = Signals.Hits(20000, 6000, 900, seed: 4);
        double[] other = [.. input.Select(x => -x)];

        Assert.Equal(Through("mid", [new double[20000], new double[20000]])[0], Through("mid", [new double[20000], new double[20000]])[1]);
        var output = Through("mid", [input, other]);
        Assert.All(Enumerable.Range(0, 20000), n => Assert.Equal(input[n], output[0][n], 1e-12));
    }

    [Fact]
    public void A_key_of_two_sides_is_read_so_too()
    {
        double[][] key = [Steady.Level(48000, -6), new double[48000]];
        var settings = Of("sum");

        var output = Steady.Through(Compress.Definition, settings, [Steady.Level(48000, -20)], key)[0];

        Assert.Equal(-20 - ((-9.01030 - ThresholdDb) * (1 - (1 / Ratio))), Spectrum.Decibels(output[40000]), DynamicsTolerance.LevelDb);
    }

    [Fact]
    public void A_link_that_is_not_full_takes_no_other_reading()
    {
        var problem = Assert.Throws<SettingsException>(() => Through("sum", [new double[10], new double[10]], (Compress.Link, 50.0)));

        Assert.Equal("link_by", problem.Parameter!.Key);
        Assert.Contains("link_pct", problem.Message, StringComparison.Ordinal);
    }

    private static Settings Of(string by, params (Parameter, object)[] values) => Settings.Of(
        Compress.Definition.Parameters,
        [(Compress.LinkBy, by), (Compress.Threshold, ThresholdDb), (Compress.Ratio, Ratio), (Compress.Knee, 0.0), .. values]);

    private static double[][] Through(string by, double[][] input, params (Parameter, object)[] values) =>
        Steady.Through(Compress.Definition, Of(by, values), input);
}
