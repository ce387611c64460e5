using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Processors;

public sealed class PolarityTests
{
    private static readonly double[] Left = Signals.Noise(200, seed: 1);
    private static readonly double[] Right = Signals.Noise(200, seed: 2);

    [Theory]
    [InlineData("both", -1, -1)]
    [InlineData("left", -1, 1)]
    [InlineData("right", 1, -1)]
    public void The_chosen_channels_turn_over(string invert, int left, int right)
    {
        var output = Run.Through(Polarity.Definition, Of(invert), [Left, Right]);

        Assert.Equal(Left.Select(x => left * x), output[0]);
        Assert.Equal(Right.Select(x => right * x), output[1]);
    }

    [Fact]
    public void Silence_stays_positive_zero()
    {
        var output = Run.Through(Polarity.Definition, Of("both"), [Signals.Silence(4)]);

        Assert.All(output[0], x => Assert.Equal(0L, BitConverter.DoubleToInt64Bits(x)));
    }

    [Fact]
    public void Mono_has_no_left_side()
    {
        var problem = Assert.Throws<SettingsException>(() => Run.Through(Polarity.Definition, Of("left"), [Left]));

        Assert.Contains("needs a stereo signal", problem.Message, StringComparison.Ordinal);
    }

    private static Settings Of(string invert) => Settings.Of(Polarity.Definition.Parameters, (Polarity.Invert, invert));
}
