using DrumPrint.Dsp.Metering;

namespace DrumPrint.Dsp.Tests.Metering;

public class RunningMeterTests
{
    private const int Rate = 48000;
    private const int Block = 480;

    // EBU Tech 3341, test signals 1 and 2: a sine of 1 kHz on both sides reads as loud as its peak says.
    [Theory]
    [InlineData(-23)]
    [InlineData(-33)]
    public void A_sine_reads_as_the_standard_says(double db)
    {
        var meter = new RunningMeter(Rate);

        Play(meter.Add, n => Math.Pow(10, db / 20) * Math.Sin(2 * Math.PI * 1000 * n / Rate), 5);

        Assert.Equal(db, meter.ShortTermLufs, 0.1);
        Assert.Equal(db, meter.TruePeakDb, 0.05);
        Assert.Equal(10 * Math.Log10(2), meter.CrestDb, 0.05);
    }

    [Fact]
    public void What_is_three_seconds_ago_is_forgotten()
    {
        var meter = new RunningMeter(Rate);

        Play(meter.Add, n => n < Rate ? 0.9 * Math.Sin(0.1 * n) : 0.01 * Math.Sin(0.1 * n), 5);

        Assert.Equal(-40, meter.TruePeakDb, 0.1);
        Assert.InRange(meter.ShortTermLufs, -45, -38);
    }

    [Fact]
    public void Silence_reads_as_nothing()
    {
        var meter = new RunningMeter(Rate);

        Play(meter.Add, _ => 0, 1);

        Assert.Equal(double.NegativeInfinity, meter.ShortTermLufs);
        Assert.Equal(double.NegativeInfinity, meter.TruePeakDb);
        Assert.Equal(0, meter.CrestDb);
    }

    // IEC 61260-1:2014, 5.2 to 5.4 (from memory): mid frequencies are 1000 Hz times powers of 10^0.1.
    [Theory]
    [InlineData(1000)]
    [InlineData(63.0957)]
    [InlineData(10000)]
    public void A_sine_at_a_mid_frequency_stands_in_its_own_third(double hertz)
    {
        var bands = new BandLevels(Rate);
        var db = new double[BandLevels.Frequencies.Count];

        Play(bands.Add, n => 0.1 * Math.Sin(2 * Math.PI * hertz * n / Rate), 1);
        bands.Read(db);

        var own = BandLevels.Frequencies.Index().MinBy(f => Math.Abs(f.Item - hertz)).Index;
        Assert.Equal(hertz, BandLevels.Frequencies[own], hertz / 1000);
        Assert.Equal(-20, db[own], 0.3);
        Assert.All(db.Index().Where(b => Math.Abs(b.Index - own) > 1), b => Assert.InRange(b.Item, double.NegativeInfinity, -50));
    }

    // Equal power per hertz is 10 log 10^0.1 = 1 dB more in each wider third.
    [Fact]
    public void White_noise_rises_by_a_decibel_a_third()
    {
        var bands = new BandLevels(Rate);
        var db = new double[BandLevels.Frequencies.Count];
        var sums = new double[db.Length];
        var noise = new Random(5);
        for (var n = 0; n < 40; n++)
        {
            Play(bands.Add, _ => noise.NextDouble() - 0.5, 1);
            bands.Read(db);
            for (var b = 0; b < db.Length; b++)
            {
                sums[b] += Math.Pow(10, db[b] / 10) / 40;
            }
        }

        for (var b = 14; b < db.Length; b++)
        {
            Assert.Equal(1, 10 * Math.Log10(sums[b] / sums[b - 1]), 0.5);
        }
    }

    private static void Play(Action<AudioBlock> add, Func<int, double> sample, int seconds)
    {
        for (var block = 0; block < seconds * Rate / Block; block++)
        {
            double[] channel = [.. Enumerable.Range(block * Block, Block).Select(sample)];
            add(new AudioBlock([channel, channel], 0, Block));
        }
    }
}
