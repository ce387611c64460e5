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
        var tone = Faded(Signals.Sine(Frames, (double)Rate / divisor, level, degrees * Math.PI / 180));

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
        var fine = OneLouderPeriod(2 * Frames);
        var samples = Decimated(fine, offset);

        Assert.InRange(Measure(Faded(samples)).PeakDb, -MeterTolerance.TruePeakUnderDb, MeterTolerance.TruePeakOverDb);
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
            var noise = BandLimited(Signals.Noise(600, seed));
            var exact = Spectrum.Decibels(FinePeak(noise));

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

    private static double[] Faded(double[] signal)
    {
        const int Fade = Rate / 100;
        return [.. signal.Select((x, n) => x * Math.Min(1, Math.Min(n, signal.Length - 1 - n) / (double)Fade))];
    }

    // A sine of a sixth of the rate at 0.5 holding one period of a quarter of the rate at 1, at four times the rate.
    private static double[] OneLouderPeriod(int count)
    {
        var signal = new double[count];
        var start = count / 2 / 24 * 24;
        for (var n = 0; n < count; n++)
        {
            signal[n] = n < start
                ? 0.5 * Math.Sin(2 * Math.PI * n / 24)
                : n < start + 16 ? Math.Sin(2 * Math.PI * (n - start) / 16) : 0.5 * Math.Sin(2 * Math.PI * (n - start - 16) / 24);
        }

        return signal;
    }

    private static double[] Decimated(double[] fine, int offset)
    {
        const int Half = 256;
        return [.. Enumerable.Range(0, fine.Length / 4).Select(n =>
        {
            var sum = 0.0;
            for (var k = Math.Max(0, (4 * n) + offset - Half); k < Math.Min(fine.Length, (4 * n) + offset + Half); k++)
            {
                var x = (k - (4 * n) - offset) / 4.0;
                sum += fine[k] * Sinc(x) * Hann(x * 4 / Half) / 4;
            }

            return sum;
        })];
    }

    // Nothing above 0.4 of the rate, so that slow interpolation and the meter see the same wave.
    private static double[] BandLimited(double[] noise)
    {
        const int Half = 100;
        return [.. Enumerable.Range(0, noise.Length).Select(n =>
        {
            var sum = 0.0;
            for (var k = Math.Max(0, n - Half); k < Math.Min(noise.Length, n + Half); k++)
            {
                sum += noise[k] * 0.8 * Sinc(0.8 * (k - n)) * Hann((double)(k - n) / Half);
            }

            return sum;
        })];
    }

    private static double FinePeak(double[] signal)
    {
        const int Points = 64;
        const int Half = 60;
        var peak = 0.0;
        for (var point = 0; point < Points; point++)
        {
            var taps = Enumerable.Range(-Half, 2 * Half).Select(k => Sinc(k - ((double)point / Points)) * Hann((k - ((double)point / Points)) / (Half + 1))).ToArray();
            for (var n = -Half; n < signal.Length + Half; n++)
            {
                var sum = 0.0;
                for (var k = Math.Max(0, n - Half); k < Math.Min(signal.Length, n + Half); k++)
                {
                    sum += signal[k] * taps[k - n + Half];
                }

                peak = Math.Max(peak, Math.Abs(sum));
            }
        }

        return peak;
    }

    private static double Sinc(double x) => x == 0 ? 1 : Math.Sin(Math.PI * x) / (Math.PI * x);

    private static double Hann(double x) => Math.Abs(x) > 1 ? 0 : 0.5 + (0.5 * Math.Cos(Math.PI * x));
}
