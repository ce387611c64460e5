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

        Assert.Equal(-9, gain[990], DynamicsTolerance.StandingDb);
        var first = Array.FindIndex(gain, g => g > -9 + DynamicsTolerance.StandingDb) - 1;
        Assert.InRange(first - Steady.FirstAtLeast(input, -42.9), -1, 0);
        for (var i = 1; i <= 48; i++)
        {
            Assert.Equal(-9 + (9.0 * i / 48), gain[first + i], DynamicsTolerance.StandingDb);
        }

        var last = Steady.LastAtLeast(input, -34);
        Assert.All(gain[(first + 48)..(last + 960 + 1)], g => Assert.Equal(0, g, DynamicsTolerance.StandingDb));
        for (var i = 1; i <= 4800; i++)
        {
            Assert.Equal(-9.0 * i / 4800, gain[last + 960 + i], DynamicsTolerance.StandingDb);
        }

        Assert.Equal(-9, gain[^1], DynamicsTolerance.StandingDb);
    }

    [Fact]
    public void A_decay_is_followed_down_without_steps_the_hold_later()
    {
        var input = Enumerable.Range(0, 96000).Select(n => Math.Exp(-n / 16000.0)).ToArray();

        var gain = GainDb(Set(2, -30, 20, 50), input);

        var crossing = Array.FindIndex(input, x => Math.Abs(x) < Steady.Amplitude(-34));
        for (var n = crossing + 960 + 2400; n < 95999; n++)
        {
            var expected = Math.Max(-30, Spectrum.Decibels(input[n - 960]) + 34);
            Assert.Equal(expected, gain[n], DynamicsTolerance.StandingDb);
        }
    }

    [Fact]
    public void Close_level_has_no_part_in_it()
    {
        var settings = Settings.Of(Gate.Definition.Parameters, (Gate.Action, "expand"), (Gate.Open, -50.0), (Gate.Close, -20.0));

        Assert.Equal(0, GainDb(settings, Steady.Level(100, -49))[^1]);
    }

    [Theory]
    [InlineData(-36)]
    [InlineData(-40)]
    [InlineData(-50)]
    public void Hold_keeps_every_depth(double levelDb)
    {
        var input = Steady.Steps((9600, levelDb), (9600, -80));

        var gain = GainDb(Set(2, -40, 20, 100), input);

        var standing = levelDb + 34;
        var last = Steady.LastAtLeast(input, levelDb);
        Assert.Equal(standing, gain[9000], DynamicsTolerance.StandingDb);
        Assert.Equal(standing, gain[last + 960 - 2], DynamicsTolerance.EdgeDb);
        Assert.True(gain[last + 960 + 48] < standing - 0.3);
        Assert.Equal(standing - (40.0 * 960 / 4800), gain[last + 960 + 960], 0.1);
    }

    [Theory]
    [InlineData(60, 60, 150)]
    [InlineData(60, 60, 20)]
    [InlineData(40, 60, 5)]
    [InlineData(1000, 5, 5)]
    [InlineData(11000, 1, 1)]
    public void A_steady_sine_is_turned_down_and_not_bent(double freqHz, double holdMs, double releaseMs)
    {
        foreach (var levelDb in new[] { -37.0, -44, -54 })
        {
            var input = Signals.Sine(96000, freqHz, Steady.Amplitude(levelDb), 0.4);
            var output = Steady.Through(Gate.Definition, Set(2, -60, holdMs, releaseMs), [input])[0];
            var window = output[48000..];

            var own = Spectrum.AmplitudeAt(window, freqHz);
            Assert.Equal(levelDb + (levelDb + 34), Spectrum.Decibels(own), 0.02);
            Assert.True(Enumerable.Range(2, 8).Where(h => h * freqHz < 24000).Max(h => Spectrum.AmplitudeAt(window, h * freqHz)) < own * 2e-4);
        }
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
