using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Tests.Dynamics;

public sealed class RunningMaximumTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(7)]
    [InlineData(100)]
    public void Is_the_largest_of_the_last_values(int length)
    {
        var noise = new CounterNoise(2);
        double[] values = [.. Enumerable.Range(0, 1000).Select(n => n % 300 < 120 ? 0 : Math.Round(noise.Bipolar(n) * 20))];
        double[] expected = [.. values.Select((_, n) => values[Math.Max(0, n - length + 1)..(n + 1)].Max())];

        var (maximum, single) = (new RunningMaximum(length), new RunningMaximum(length));
        var followed = (double[])values.Clone();
        for (var start = 0; start < followed.Length; start += 37)
        {
            maximum.Follow(followed.AsSpan(start, Math.Min(37, followed.Length - start)));
        }

        Assert.Equal(expected, followed);
        Assert.Equal(expected, values.Select(single.Next));
    }

    [Fact]
    public void What_is_not_a_number_comes_out_once_and_wipes_out_what_was_before()
    {
        double[] values = [5, 4, double.NaN, 1, 3, 2, 0, 0, 0, 0];

        new RunningMaximum(4).Follow(values);

        Assert.Equal([5, 5, double.NaN, 1, 3, 3, 3, 3, 2, 0], values);
    }
}
