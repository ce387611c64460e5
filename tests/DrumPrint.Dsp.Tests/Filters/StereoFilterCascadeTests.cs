using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Filters;

public sealed class StereoFilterCascadeTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(7)]
    public void Both_channels_at_once_give_the_bits_of_each_alone(int count)
    {
        var sections = BiquadDesign.LowPass(6000, 8, 48000)[..count];
        var left = Signals.Noise(1000, 1).Concat(Signals.Silence(9000)).ToArray();
        var right = Signals.Noise(1000, 2).Concat(Signals.Silence(9000)).ToArray();
        var expectedLeft = (double[])left.Clone();
        var expectedRight = (double[])right.Clone();
        new FilterCascade(sections).Process(expectedLeft);
        new FilterCascade(sections).Process(expectedRight);

        var filter = new StereoFilterCascade(sections);
        for (var start = 0; start < left.Length; start += 49)
        {
            var length = Math.Min(49, left.Length - start);
            filter.Process(left.AsSpan(start, length), right.AsSpan(start, length));
        }

        Assert.Equal(expectedLeft, left);
        Assert.Equal(expectedRight, right);
    }
}
