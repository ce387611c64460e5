using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Processors;

public sealed class WidthTests
{
    private static readonly double[] Left = Signals.Noise(200, seed: 1);
    private static readonly double[] Right = Signals.Noise(200, seed: 2);

    [Fact]
    public void At_a_hundred_per_cent_no_bit_changes()
    {
        var output = Through(100);

        Assert.Equal(Left, output[0]);
        Assert.Equal(Right, output[1]);
    }

    [Fact]
    public void At_zero_both_sides_are_the_same_mean()
    {
        var output = Through(0);

        Assert.Equal(output[0], output[1]);
        Assert.Equal((Left[7] + Right[7]) / 2, output[0][7], Tolerance.Rounding);
    }

    [Theory]
    [InlineData(50)]
    [InlineData(200)]
    public void The_middle_stays_and_the_sides_are_scaled(double width)
    {
        var output = Through(width);

        for (var i = 0; i < Left.Length; i++)
        {
            Assert.Equal(Left[i] + Right[i], output[0][i] + output[1][i], Tolerance.Rounding);
            Assert.Equal((Left[i] - Right[i]) * width / 100, output[0][i] - output[1][i], Tolerance.Rounding);
        }
    }

    [Fact]
    public void Mono_has_no_width()
    {
        var problem = Assert.Throws<SettingsException>(() => Run.Through(Width.Definition, Settings.Of(Width.Definition.Parameters), [Left]));

        Assert.Contains("needs a stereo signal", problem.Message, StringComparison.Ordinal);
    }

    private static double[][] Through(double width) =>
        Run.Through(Width.Definition, Settings.Of(Width.Definition.Parameters, (Width.Amount, width)), [Left, Right]);
}
