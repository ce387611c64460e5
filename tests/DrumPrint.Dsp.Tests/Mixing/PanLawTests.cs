using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Mixing;

public sealed class PanLawTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(-2.5)]
    [InlineData(-3)]
    [InlineData(-4.5)]
    [InlineData(-6)]
    public void The_centre_is_at_the_law_and_a_hard_side_at_unity(double lawDb)
    {
        var centre = PanLaw.Mono(0, lawDb);
        var left = PanLaw.Mono(-100, lawDb);
        var right = PanLaw.Mono(100, lawDb);

        Assert.Equal(lawDb, Spectrum.Decibels(centre.Left), Tolerance.Rounding);
        Assert.Equal(centre.Left, centre.Right);
        Assert.Equal((1, 0), left);
        Assert.Equal((0, 1), right);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-3)]
    [InlineData(-6)]
    public void Panning_is_smooth_and_mirrored(double lawDb)
    {
        var last = PanLaw.Mono(0, lawDb);
        for (var pan = 1; pan <= 100; pan++)
        {
            var (left, right) = PanLaw.Mono(pan, lawDb);

            Assert.True(left < last.Left && right >= last.Right);
            Assert.InRange(last.Left - left, 0, 0.03);
            Assert.Equal((right, left), PanLaw.Mono(-pan, lawDb));
            last = (left, right);
        }
    }

    [Fact]
    public void At_3_dB_the_two_sides_keep_the_power_and_at_6_dB_the_sum()
    {
        // Sine–cosine and linear pan laws, as any text on mixing gives them (common practice, no source).
        for (var pan = -99; pan < 100; pan += 11)
        {
            var power = PanLaw.Mono(pan, 20 * Math.Log10(Math.Sqrt(0.5)));
            var sum = PanLaw.Mono(pan, 20 * Math.Log10(0.5));

            Assert.Equal(1, (power.Left * power.Left) + (power.Right * power.Right), Tolerance.Rounding);
            Assert.Equal(1, sum.Left + sum.Right, Tolerance.Rounding);
        }
    }
}
