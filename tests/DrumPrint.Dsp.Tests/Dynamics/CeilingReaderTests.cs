using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Tests.Dynamics;

public sealed class CeilingReaderTests
{
    private const int Frames = 40 * TrueLevel.MaxFrames;

    [Theory]
    [InlineData(true, 0.3)]
    [InlineData(true, 0.01)]
    [InlineData(false, 0.3)]
    [InlineData(false, 0.01)]
    public void Leaving_out_what_is_low_loses_no_level_that_matters(bool isClose, double least)
    {
        var (full, sparing) = (Make(isClose), Make(isClose));
        var (all, some) = (new double[TrueLevel.MaxFrames], new double[TrueLevel.MaxFrames]);
        var samples = Bursts();
        var (left, met) = (0, 0);
        for (var start = 0; start < Frames; start += TrueLevel.MaxFrames)
        {
            var part = samples.AsSpan(start, TrueLevel.MaxFrames);
            Assert.True(full.Read(part, 0, all));
            if (sparing.Read(part, least, some))
            {
                Assert.Equal(all, some);
            }
            else
            {
                left++;
                Assert.All(some, level => Assert.Equal(0, level));
                Assert.True(all.Max() < least * least);
            }

            met += all.Max() >= least * least ? 1 : 0;
        }

        Assert.InRange(left, 5, 35);
        Assert.InRange(met, 2, 35);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void The_worst_wave_comes_near_the_reach_and_does_not_pass_it(bool isClose)
    {
        // Samples of 1 or −1, turned one by one wherever that makes the highest level higher.
        var samples = new double[TrueLevel.MaxFrames];
        Array.Fill(samples, 1);
        var most = Highest(isClose, samples);
        for (var i = TrueLevel.MaxFrames - 1; i >= 0; i--)
        {
            samples[i] = -samples[i];
            var level = Highest(isClose, samples);
            samples[i] = level < most ? -samples[i] : samples[i];
            most = Math.Max(most, level);
        }

        var reach = Make(isClose).Reach;
        Assert.InRange(most, 0.5 * reach, reach);
    }

    private static CeilingReader Make(bool isClose) => isClose ? LevelRates.Close() : new CeilingReader(LevelRates.Fine(48000, findsPeaks: true));

    private static double Highest(bool isClose, double[] samples)
    {
        var reader = Make(isClose);
        var levels = new double[TrueLevel.MaxFrames];
        reader.Read(samples, 0, levels);
        var most = levels.Max();
        reader.Read(new double[TrueLevel.MaxFrames], 0, levels);
        return Math.Sqrt(Math.Max(most, levels.Max()));
    }

    private static double[] Bursts()
    {
        var noise = new CounterNoise(1);
        return [.. Enumerable.Range(0, Frames).Select(n => noise.Bipolar(n) * Math.Pow(10, -(n % 2500) / 500.0))];
    }
}
