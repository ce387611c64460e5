using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

public sealed class DuckTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(4)]
    [InlineData(60)]
    public void Goes_down_by_the_amount_in_the_attack_and_comes_back_in_hold_and_release(double amount)
    {
        var settings = Settings.Of(Duck.Definition.Parameters, (Duck.Amount, amount), (Duck.Hold, 10.0));
        var key = Steady.Steps((1000, -31), (2000, -29), (9000, -31));
        var gain = Steady.GainDb(Duck.Definition, settings, Steady.Level(12000, -12), key);

        var first = Steady.FirstAtLeast(key, -30);
        var last = Steady.LastAtLeast(key, -30);
        Assert.All(gain[..(first + 1)], g => Assert.Equal(0, g));
        var halfWay = (1 + Steady.Amplitude(-amount)) / 2;
        Assert.Equal(halfWay, Steady.Amplitude(gain[first + 24]), DynamicsTolerance.Ramp);
        Assert.All(gain[(first + 48)..(last + 480 + 1)], g => Assert.Equal(-amount, g, DynamicsTolerance.StandingDb));
        Assert.Equal(halfWay, Steady.Amplitude(gain[last + 480 + 2880]), DynamicsTolerance.Ramp);
        Assert.True(amount == 0 || gain[last + 480 + 5759] < 0);
        Assert.All(gain[(last + 480 + 5760)..], g => Assert.Equal(0, g));
    }

    [Fact]
    public void Own_level_has_no_part_in_it_when_there_is_a_key()
    {
        var gain = Steady.GainDb(Duck.Definition, Settings.Of(Duck.Definition.Parameters), Steady.Level(1000, 0), Steady.Level(1000, -60));

        Assert.All(gain, g => Assert.Equal(0, g));
    }

    [Fact]
    public void Key_filters_choose_what_lowers_it()
    {
        var settings = Settings.Of(Duck.Definition.Parameters, (Duck.KeyHighPass, 500.0), (Duck.KeyLowPass, 5000.0), (Duck.Hold, 20.0));

        Assert.Equal(0, LastGainDb(settings, 50, -12));
        Assert.Equal(-6, LastGainDb(settings, 1000, -12), DynamicsTolerance.StandingDb);
        Assert.Equal(0, LastGainDb(settings, 20000, -12));
    }

    private static double LastGainDb(Settings settings, double keyHz, double keyDb) =>
        Steady.GainDb(Duck.Definition, settings, Steady.Level(9600, -20), Signals.Sine(9600, keyHz, Steady.Amplitude(keyDb), Math.PI / 2))[^300];
}
