using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Filters;

public sealed class FilterCascadeTests
{
    [Fact]
    public void Sample_by_sample_and_in_stretches_give_the_same_bits()
    {
        var sections = BiquadDesign.HighPass(80, 5, 48000);
        var input = Signals.Noise(2000);

        var one = new FilterCascade(sections);
        var single = input.Select(one.Next).ToArray();
        var stretches = (double[])input.Clone();
        var other = new FilterCascade(sections);
        for (var start = 0; start < stretches.Length; start += 7)
        {
            other.Process(stretches.AsSpan(start, Math.Min(7, stretches.Length - start)));
        }

        Assert.Equal(single, stretches);
    }

    [Fact]
    public void The_tail_is_over_when_it_says_so()
    {
        var filter = new FilterCascade(BiquadDesign.HighPass(30, 8, 48000));
        var x = Signals.Impulse((int)filter.TailFrames + 1000);

        filter.Process(x);

        Assert.True(x.AsSpan((int)filter.TailFrames).ToArray().Max(Math.Abs) < 1e-6);
    }

    [Fact]
    public void Nothing_subnormal_is_left_after_the_sound_has_gone()
    {
        var filter = new FilterCascade(BiquadDesign.LowPass(1000, 4, 48000));
        var x = Signals.Impulse(48000);

        filter.Process(x);

        Assert.DoesNotContain(x, double.IsSubnormal);
        Assert.Equal(0, x[^1]);
    }
}
