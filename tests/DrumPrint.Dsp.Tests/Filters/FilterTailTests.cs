using DrumPrint.Dsp.Filters;

namespace DrumPrint.Dsp.Tests.Filters;

public sealed class FilterTailTests
{
    private const int Rate = 48000;
    private const double BoundDb = -105;

    [Fact]
    public void What_lies_further_back_than_the_sum_says_changes_less_than_the_bound()
    {
        BiquadCoefficients[] sections = [.. BiquadDesign.HighPass(2, 1, Rate), .. BiquadDesign.HighPass(2, 1, Rate)];

        var frames = FilterTail.FramesOfSum(sections);

        // The worst signal at full scale follows the signs of what is left.
        Assert.True(20 * Math.Log10(Left(sections, frames)) < BoundDb);
        Assert.True(20 * Math.Log10(Left(sections, frames - 100)) > BoundDb);
    }

    // Two high-passes of first order at a = 2πf: what is left after t is e^(−at)(at + …), as a double pole's (textbook Laplace pair of 1/(s + a)²).
    [Fact]
    public void Two_equal_first_order_high_passes_are_forgotten_after_fifteen_times_their_time()
    {
        BiquadCoefficients[] sections = [.. BiquadDesign.HighPass(2, 1, Rate), .. BiquadDesign.HighPass(2, 1, Rate)];

        var times = FilterTail.FramesOfSum(sections) * 2 * Math.PI * 2 / Rate;

        Assert.InRange(times, 14, 16);
    }

    [Fact]
    public void No_section_remembers_nothing() => Assert.Equal(1, FilterTail.FramesOfSum([]));

    private static double Left(BiquadCoefficients[] sections, long from)
    {
        var response = new double[4 * Rate];
        response[0] = 1;
        new FilterCascade(sections).Process(response);
        return response.Skip((int)from).Sum(Math.Abs);
    }
}
