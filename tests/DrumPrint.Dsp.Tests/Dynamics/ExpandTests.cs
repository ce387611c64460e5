using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>Downward expansion: below the threshold the output falls by the ratio, (ratio − 1) dB further for each dB.</summary>
public sealed class ExpandTests
{
    [Theory]
    [InlineData(2, -60)]
    [InlineData(3.5, -60)]
    [InlineData(2, -9)]
    [InlineData(1, -60)]
    public void Standing_levels_are_turned_down_by_ratio_and_limited_by_range(double ratio, double rangeDb)
    {
        foreach (var level in new[] { -93.8, -70, -50, -43, -42.8, -36, -34.5, -34, -30, 0 })
        {
            var gain = GainDb(Set(ratio, rangeDb, 0, 5), Steady.Level(9600, level));

            Assert.Equal(Math.Max(rangeDb, Math.Min(0, (ratio - 1) * (level + 34))), gain[^1], DynamicsTolerance.StandingDb);
        }
    }

    [Fact]
    public void Full_swings_take_attack_and_release_and_the_hold_lies_between()
    {
        var input = Steady.Steps((1000, -80), (2000, -10), (2000 + 960 + 4800, -80));

        var gain = GainDb(Set(2, -9, 20, 100), input);

        Assert.Equal(-9, gain[999], DynamicsTolerance.StandingDb);
        for (var i = 1; i <= 48; i++)
        {
            Assert.Equal(-9 + (9.0 * i / 48), gain[999 + i], DynamicsTolerance.StandingDb);
        }

        Assert.All(gain[1047..(2999 + 960 + 1)], g => Assert.Equal(0, g, DynamicsTolerance.StandingDb));
        for (var i = 1; i <= 4800; i++)
        {
            Assert.Equal(-9.0 * i / 4800, gain[2999 + 960 + i], DynamicsTolerance.StandingDb);
        }

        Assert.Equal(-9, gain[^1], DynamicsTolerance.StandingDb);
    }

    [Fact]
    public void A_decay_is_followed_down_without_steps()
    {
        var input = Enumerable.Range(0, 96000).Select(n => Math.Exp(-n / 16000.0) * (n % 2 == 0 ? 1 : -1)).ToArray();

        var gain = GainDb(Set(2, -30, 20, 50), input);

        var crossing = Array.FindIndex(input, x => Math.Abs(x) < Steady.Amplitude(-34));
        for (var n = crossing + 960 + 2400; n < 95999; n++)
        {
            var expected = Math.Max(-30, Spectrum.Decibels(Math.Abs(input[n])) + 34);
            Assert.Equal(expected, gain[n], DynamicsTolerance.StandingDb);
        }
    }

    [Fact]
    public void Close_level_has_no_part_in_it()
    {
        var settings = Settings.Of(Gate.Definition.Parameters, (Gate.Action, "expand"), (Gate.Open, -50.0), (Gate.Close, -20.0));

        Assert.Equal(0, GainDb(settings, Steady.Level(100, -49))[^1]);
    }

    private static double[] GainDb(Settings settings, double[] input) => Steady.GainDb(Gate.Definition, settings, input);

    private static Settings Set(double ratio, double rangeDb, double holdMs, double releaseMs) => Settings.Of(
        Gate.Definition.Parameters,
        (Gate.Action, "expand"),
        (Gate.Open, -34.0),
        (Gate.Ratio, ratio),
        (Gate.Range, rangeDb),
        (Gate.Attack, 1.0),
        (Gate.Hold, holdMs),
        (Gate.Release, releaseMs));
}
