using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Metering;

/// <summary>True peak against the test signals of EBU Tech 3341 (v4, Table 1, cases 15 to 23) and against slow, fine
/// interpolation.</summary>
public sealed class TruePeakMeterTests
{
    private const int Rate = 48000;
    private const int Frames = 4800;

    [Theory]
    [InlineData(15, 4, 0.50, 0, -6.0)]
    [InlineData(16, 4, 0.50, 45, -6.0)]
    [InlineData(17, 6, 0.50, 60, -6.0)]
    [InlineData(18, 8, 0.50, 67.5, -6.0)]
    [InlineData(19, 4, 1.41, 45, 3.0)]
    public void Tech_3341_cases_15_to_19_steady_tones(int number, int divisor, double level, double degrees, double expected)
    {
        var tone = TruePeakSignals.Faded(Signals.Sine(Frames, (double)Rate / divisor, level, degrees * Math.PI / 180));

        var reading = Measure(tone).PeakDb;

        Assert.InRange(number, 15, 19);
        Assert.InRange(reading, expected - MeterTolerance.TruePeakUnderDb, expected + MeterTolerance.TruePeakOverDb);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Tech_3341_cases_20_to_23_one_louder_period(int offset)
    {
        var fine = TruePeakSignals.OneLouderPeriod(2 * Frames);
        var samples = TruePeakSignals.Decimated(fine, offset);

        Assert.InRange(Measure(TruePeakSignals.Faded(samples)).PeakDb, -MeterTolerance.TruePeakUnderDb, MeterTolerance.TruePeakOverDb);
    }

    // Source: BS.1770-5, Annex 2: 0.554 dB at 0.45 of the rate with four points; the others from its formula.
    [Theory]
    [InlineData(32000, -0.554)]
    [InlineData(48000, -0.473)]
    [InlineData(96000, -0.117)]
    [InlineData(192000, -0.117)]
    public void The_stated_under_read_is_that_of_the_standard(int rate, double expected) =>
        Assert.Equal(expected, new TruePeakMeter(new AudioFormat(rate, 1)).LargestUnderReadDb, MeterTolerance.PrintedDb);

    [Fact]
    public void Noise_reads_as_with_64_points_for_each_sample_less_the_stated_under_read()
    {
        for (var seed = 1UL; seed <= 6; seed++)
        {
            var noise = TruePeakSignals.BandLimited(Signals.Noise(600, seed));
            var exact = Spectrum.Decibels(TruePeakSignals.FinePeak(noise, 64));

            var meter = Measure(noise);

            Assert.InRange(meter.PeakDb - exact, meter.LargestUnderReadDb, MeterTolerance.InterpolatorDb);
        }
    }

    [Fact]
    public void It_never_reads_less_than_a_sample_and_hears_the_last_one()
    {
        Assert.Equal(0, Measure(Signals.Impulse(100, at: 99)).PeakDb, Tolerance.Rounding);
        Assert.Equal(double.NegativeInfinity, Measure(Signals.Silence(100)).PeakDb);
    }

    [Fact]
    public void A_peak_between_samples_is_found_after_a_higher_sample()
    {
        // A quarter of the rate, its samples an eighth of a turn beside the peaks: 3 dB below them.
        var tone = Signals.Sine(2000, Rate / 4.0, phase: Math.PI / 4);
        double[] signal = [.. Signals.Impulse(2000, at: 1000, level: 0.9), .. tone.Select((x, n) => x * Math.Sin(Math.PI * n / 2000))];

        var meter = Measure(signal);

        Assert.InRange(signal.Max(Math.Abs), 0.9, 0.9);
        Assert.Equal(0, meter.PeakDb, MeterTolerance.InterpolatorDb);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(3000)]
    public void Where_blocks_are_cut_changes_no_bit(int blockFrames)
    {
        var noise = Signals.Noise(3000);

        Assert.Equal(Measure(noise).PeakDb, Measure(noise, blockFrames).PeakDb);
    }

    private static TruePeakMeter Measure(double[] signal, int blockFrames = 480)
    {
        var meter = new TruePeakMeter(new AudioFormat(Rate, 1));
        for (var start = 0; start < signal.Length; start += blockFrames)
        {
            meter.Add(new AudioBlock(new[] { signal }, start, Math.Min(blockFrames, signal.Length - start)));
        }

        return meter;
    }
}
