using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Metering;

public sealed class LevelMeterTests
{
    // Textbook: a sine of peak 1 has a mean power of 1/2.
    [Fact]
    public void A_full_scale_sine_reads_3_dB_below_its_peak()
    {
        var meter = Measure(Signals.Sine(48000, 1000));

        Assert.Equal(0, meter.PeakDb, Tolerance.Rounding);
        Assert.Equal(10 * Math.Log10(0.5), meter.RmsDb, MeterTolerance.SumDb);
        Assert.Equal(10 * Math.Log10(2), meter.CrestDb, MeterTolerance.SumDb);
        Assert.Equal(0, meter.OffsetOf(0), Tolerance.Rounding);
    }

    [Fact]
    public void An_offset_is_found_channel_by_channel()
    {
        var meter = Measure([.. Signals.Sine(48000, 1000).Select(x => x + 0.25)], [.. Signals.Sine(48000, 1000).Select(x => x - 0.5)]);

        Assert.Equal(0.25, meter.OffsetOf(0), Tolerance.Rounding);
        Assert.Equal(-0.5, meter.OffsetOf(1), Tolerance.Rounding);
        Assert.Equal(1.25, meter.PeakOf(0), Tolerance.Rounding);
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(60, 0.5)]
    [InlineData(90, 0)]
    [InlineData(180, -1)]
    public void The_correlation_of_two_sines_is_the_cosine_of_their_angle(double degrees, double expected)
    {
        var meter = Measure(Signals.Sine(48000, 1000), Signals.Sine(48000, 1000, 0.3, degrees * Math.PI / 180));

        Assert.Equal(expected, meter.Correlation, Tolerance.Rounding);
    }

    [Fact]
    public void Silence_and_mono_have_plain_answers()
    {
        var silence = Measure(Signals.Silence(100), Signals.Silence(100));

        Assert.Equal((double.NegativeInfinity, double.NegativeInfinity, 0, 1), (silence.PeakDb, silence.RmsDb, silence.CrestDb, silence.Correlation));
        Assert.Equal(1, Measure(Signals.Noise(100)).Correlation);
        Assert.Equal(0, Measure(Signals.Noise(100), Signals.Silence(100)).Correlation);
        Assert.Equal(0, Measure([[]]).OffsetOf(0));
    }

    private static LevelMeter Measure(params double[][] channels)
    {
        var meter = new LevelMeter(new AudioFormat(Run.SampleRate, channels.Length));
        for (var start = 0; start < channels[0].Length; start += 480)
        {
            meter.Add(new AudioBlock(channels, start, Math.Min(480, channels[0].Length - start)));
        }

        return meter;
    }
}
