using DrumPrint.Dsp;
using DrumPrint.Rendering;

namespace DrumPrint.Tests.Rendering;

public sealed class TailPeaksTests
{
    // Of these rates a hundred divides the first alone.
    [Theory]
    [InlineData(48000)]
    [InlineData(22050)]
    [InlineData(11025)]
    [InlineData(8191)]
    public void A_window_ends_with_every_second_at_any_rate(int rate)
    {
        var last = Peaks(rate, rate - 1);
        var first = Peaks(rate, rate);

        Assert.Equal(rate, last.QuietFrom(0.5));
        Assert.InRange(first.QuietFrom(0.5), rate + (rate / 100), rate + (rate / 100) + 1);
        Assert.Equal(1, last.PeakBefore(rate));
        Assert.Equal(0, first.PeakBefore(rate));
        Assert.Equal(1, first.Peak);
    }

    [Fact]
    public void What_lies_past_the_end_of_its_tail_is_not_looked_at()
    {
        var peaks = new TailPeaks(new WrittenStretch(0, 2000, 2000, 960), 48000);

        peaks.Add(0, new AudioBlock([Impulse(960)], 0, 2000));

        Assert.Equal(0, peaks.Peak);
        Assert.Equal(0, peaks.QuietFrom(0.5));
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 480)]
    [InlineData(480, 480)]
    [InlineData(481, 960)]
    public void A_signal_ends_within_a_window(long end, long expected) => Assert.Equal(expected, TailPeaks.WindowEnd(end, 48000));

    private static TailPeaks Peaks(int rate, int loudFrame)
    {
        var peaks = new TailPeaks(new WrittenStretch(0, 2 * rate, 2 * rate, 2 * rate), rate);
        var signal = Impulse(loudFrame, 2 * rate);
        for (var frame = 0; frame < 2 * rate; frame += 777)
        {
            peaks.Add(frame, new AudioBlock([signal], frame, Math.Min(777, (2 * rate) - frame)));
        }

        return peaks;
    }

    private static double[] Impulse(int at, int frames = 2000)
    {
        var signal = new double[frames];
        signal[at] = 1;
        return signal;
    }
}
