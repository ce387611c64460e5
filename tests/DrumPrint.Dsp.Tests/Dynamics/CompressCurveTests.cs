using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>The static curve, against Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. (3), (4), (10) and (18).</summary>
public sealed class CompressCurveTests
{
    private const int Second = Run.SampleRate;

    [Theory]
    [InlineData(-23, -23.0)]
    [InlineData(-21.5, -21.640625)]
    [InlineData(-20, -20.5625)]
    [InlineData(-18.5, -19.765625)]
    [InlineData(-17, -19.25)]
    [InlineData(0, -15.0)]
    public void Soft_knee_gives_the_values_worked_out_from_the_published_curve(double inDb, double outDb)
    {
        foreach (var topology in new[] { "feed_forward", "feedback" })
        {
            Assert.Equal(outDb, StandingOut(topology, -20, 4, 6, inDb), DynamicsTolerance.LevelDb);
        }
    }

    [Fact]
    public void Curve_is_the_published_one_at_every_threshold_ratio_and_knee()
    {
        foreach (var topology in new[] { "feed_forward", "feedback" })
        {
            foreach (var ratio in new double[] { 1, 1.5, 2, 4, 10, 20, 100 })
            {
                foreach (var (threshold, knee) in new (double, double)[] { (-20, 0), (-37.5, 6), (-10, 24) })
                {
                    foreach (var inDb in new double[] { -70, -40, -24, -18, -11, -3, 0, 6 })
                    {
                        var expected = Published(threshold, ratio, knee, inDb);

                        Assert.Equal(expected, StandingOut(topology, threshold, ratio, knee, inDb), DynamicsTolerance.LevelDb);
                    }
                }
            }
        }
    }

    [Fact]
    public void Feedback_slope_is_the_one_that_makes_the_ratio_true()
    {
        // The feed-forward slope 1/R − 1 in a loop would give 2 − 1/R: −8.571 dB here.
        Assert.Equal(-15.0, StandingOut("feedback", -20, 4, 0, 0), DynamicsTolerance.LevelDb);
    }

    [Theory]
    [InlineData("feed_forward", 4)]
    [InlineData("feed_forward", 20)]
    [InlineData("feedback", 4)]
    [InlineData("feedback", 20)]
    public void A_sine_is_turned_down_by_its_peak(string topology, double ratio)
    {
        var settings = Set(topology, -20, ratio, 6);
        var output = Run.Through(Compress.Definition, settings, [Signals.Sine(2 * Second, 1000)])[0];

        var peakDb = Spectrum.Decibels(output.Skip(Second).Max(Math.Abs));

        Assert.Equal(-20 + (20 / ratio), peakDb, DynamicsTolerance.SineDb);
    }

    [Theory]
    [InlineData("feed_forward")]
    [InlineData("feedback")]
    public void Rms_detector_reads_sine_square_and_noise_as_their_rms(string topology)
    {
        var level = Steady.Amplitude(-6);
        // Softened towards the top: what lies above 20 kHz is not all read.
        var white = Signals.Noise(4 * Second, 7, level);
        var noise = white.Select((x, n) => n == 0 ? x : (x + white[n - 1]) / 2).ToArray();
        var signals = new (double[] Signal, double RmsDb)[]
        {
            (Signals.Sine(4 * Second, 1000, level), -6 - (10 * Math.Log10(2))),
            (Steady.Level(4 * Second, -6), -6),
            (noise, 10 * Math.Log10(noise.Average(x => x * x))),
        };
        var settings = Set(topology, -30, 4, 0, (Compress.Detector, "rms"), (Compress.RmsTime, 400.0), (Compress.Release, 400.0));

        foreach (var (signal, rmsDb) in signals)
        {
            var output = Run.Through(Compress.Definition, settings, [signal])[0];
            var gainDb = Spectrum.Decibels(Math.Sqrt(output.Skip(3 * Second).Sum(y => y * y) / signal.Skip(3 * Second).Sum(x => x * x)));

            Assert.Equal(0.75 * (-30 - rmsDb), gainDb, DynamicsTolerance.SineDb);
        }
    }

    [Fact]
    public void Below_the_knee_the_signal_passes_bit_for_bit()
    {
        var input = Signals.Noise(Second, 3, Steady.Amplitude(-36));

        Assert.Equal(input, Steady.Through(Compress.Definition, Set("feed_forward", -20, 10, 12), [input])[0]);
        Assert.Equal(input, Steady.Through(Compress.Definition, Set("feedback", -20, 10, 12), [input])[0]);
    }

    private static double StandingOut(string topology, double threshold, double ratio, double knee, double inDb)
    {
        var settings = Set(topology, threshold, ratio, knee, (Compress.Attack, 0.5), (Compress.Release, 5.0));
        return inDb + Steady.GainDb(Compress.Definition, settings, Steady.Level(Second / 50, inDb))[^1];
    }

    // Eq. (4), branch by branch as printed.
    private static double Published(double threshold, double ratio, double knee, double x) =>
        2 * (x - threshold) < -knee ? x
        : 2 * Math.Abs(x - threshold) <= knee && knee > 0 ? x + (((1 / ratio) - 1) * Math.Pow(x - threshold + (knee / 2), 2) / (2 * knee))
        : threshold + ((x - threshold) / ratio);

    private static Settings Set(string topology, double threshold, double ratio, double knee, params (Parameter, object)[] more) =>
        Settings.Of(
            Compress.Definition.Parameters,
            [(Compress.Topology, topology), (Compress.Threshold, threshold), (Compress.Ratio, ratio), (Compress.Knee, knee), .. more]);
}
