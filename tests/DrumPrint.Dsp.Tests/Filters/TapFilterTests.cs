using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Filters;

public sealed class TapFilterTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(25)]
    [InlineData(100)]
    public void It_is_the_sum_of_its_weighted_inputs_wherever_stretches_are_cut(int count)
    {
        var taps = Signals.Noise(count, 3);
        var input = Signals.Noise(2000, 4);
        var expected = input.Select((_, n) => Enumerable.Range(0, Math.Min(count, n + 1)).Sum(k => taps[k] * input[n - k])).ToArray();

        var whole = (double[])input.Clone();
        new TapFilter(taps).Process(whole);
        var cut = (double[])input.Clone();
        var filter = new TapFilter(taps);
        for (var start = 0; start < cut.Length; start += 37)
        {
            filter.Process(cut.AsSpan(start, Math.Min(37, cut.Length - start)));
        }

        Assert.Equal(whole, cut);
        Assert.All(expected.Zip(whole), p => Assert.Equal(p.First, p.Second, 1e-12)); // rounding of a hundred sums
    }
}
