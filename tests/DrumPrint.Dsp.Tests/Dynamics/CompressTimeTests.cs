using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>Attack and release, against the step responses of Giannoulis, Massberg and Reiss, JAES 60(6), 2012, §§3–5.</summary>
public sealed class CompressTimeTests
{
    private const double Left = 1 / Math.E;

    public static TheoryData<string, double, double, double> Dials()
    {
        var dials = new TheoryData<string, double, double, double>();
        foreach (var topology in new[] { "feed_forward", "feedback" })
        {
            foreach (var ratio in new double[] { 2, 4, 20, 100 })
            {
                foreach (var (attack, release) in new (double, double)[] { (0.3, 55), (3, 70), (10, 120), (30, 160), (20, 20), (50, 10) })
                {
                    dials.Add(topology, ratio, attack, release);
                }
            }
        }

        return dials;
    }

    [Theory]
    [MemberData(nameof(Dials))]
    public void Attack_and_release_come_63_percent_of_the_way_at_the_dial(string topology, double ratio, double attack, double release)
    {
        var rise = Steady.Frames(20 * attack);
        var input = Steady.Steps((1000, -40), (rise, 0), (Steady.Frames(4 * release), -40));
        var gain = Steady.GainDb(Compress.Definition, Set(topology, ratio, attack, release), input);
        var full = -20 * (1 - (1 / ratio));

        var attackTime = Steady.TimeMs(gain, 1000, g => g <= full * (1 - Left));
        var releaseTime = Steady.TimeMs(gain, 1000 + rise, g => g >= full * Left);

        var tolerance = topology == "feedback" ? DynamicsTolerance.FeedbackTime : DynamicsTolerance.FeedForwardTime;
        var frame = 1000.0 / Run.SampleRate;
        Assert.Equal(attack, attackTime, Math.Max(attack * tolerance, frame));
        Assert.Equal(release, releaseTime, release * tolerance);
        Assert.Equal(full, gain[1000 + rise - 10], DynamicsTolerance.EdgeDb);
    }

    // Step −40 → 0 dBFS at T −20, R 4, no knee; the figures follow from g∞ (1 − aⁿ). The feedback row belongs to a loop
    // whose effective time is 2.5 ms.
    [Theory]
    [InlineData("feed_forward", 10, 10.000, 16.083, 20.146, 23.021)]
    [InlineData("feedback", 2.5, 2.500, 4.021, 5.042, 5.750)]
    public void Step_passes_the_worked_out_marks(string topology, double attack, double at63, double within3, double within2, double at90)
    {
        var gain = Steady.GainDb(Compress.Definition, Set(topology, 4, attack, 120), Steady.Steps((480, -40), (9600, 0)));

        var tolerance = topology == "feedback" ? DynamicsTolerance.FeedbackTime : DynamicsTolerance.FeedForwardTime;
        Assert.Equal(at63, Steady.TimeMs(gain, 480, g => g <= -15 * (1 - Left)), at63 * tolerance);
        Assert.Equal(within3, Steady.TimeMs(gain, 480, g => g <= -12), within3 * tolerance);
        Assert.Equal(within2, Steady.TimeMs(gain, 480, g => g <= -13), within2 * tolerance);
        Assert.Equal(at90, Steady.TimeMs(gain, 480, g => g <= -13.5), at90 * tolerance);
    }

    [Theory]
    [InlineData("feed_forward")]
    [InlineData("feedback")]
    public void Attack_and_release_of_a_sine_burst_are_those_of_the_dial(string topology)
    {
        const int On = 4800;
        const int Off = 24000;
        var input = Signals.Sine(2 * Off, 2000, phase: 0.1);
        for (var n = 0; n < input.Length; n++)
        {
            input[n] *= n is >= On and < Off ? 1 : 0.01;
        }

        var gain = Steady.GainDb(Compress.Definition, Set(topology, 4, 30, 160), input);

        var full = gain.Min();
        var tolerance = topology == "feedback" ? DynamicsTolerance.FeedbackTime : DynamicsTolerance.FeedForwardTime;
        Assert.Equal(-15, full, DynamicsTolerance.SineDb);
        Assert.Equal(30, Steady.TimeMs(gain, On, g => g <= full * (1 - Left)), 30 * tolerance);
        Assert.Equal(160, Steady.TimeMs(gain, Off, g => g >= full * Left), 160 * tolerance);
    }

    // Eq. (18) as printed, its step divided by the ratio, twice a point.
    [Fact]
    public void Feedback_is_the_published_loop_with_its_detector_slowed_by_the_ratio()
    {
        const double Threshold = -20;
        const double Ratio = 10;
        const double AttackHalves = 479;
        double[] levels = [.. Enumerable.Repeat(-40.0, 100), .. Enumerable.Repeat(-12.0, 500), .. Enumerable.Repeat(0.0, 2000)];
        var applied = levels.Select(l => (1 - (1 / Ratio)) * Math.Max(0, l - Threshold)).ToArray();

        new FeedbackLoop((AttackHalves + 1) / 2, 240001, Threshold, 0).Follow(levels, levels, applied, applied, 1, levels.Length, levels.Length);

        var step = (1 - Math.Exp(-1 / AttackHalves)) / Ratio;
        var reduction = 0.0;
        var last = Threshold;
        for (var n = 0; n < levels.Length; n++)
        {
            var next = Math.Max(levels[n], Threshold);
            foreach (var level in new[] { last, (last + next) / 2 })
            {
                var asked = (Ratio - 1) * Math.Max(0, level - reduction - Threshold);
                reduction = Math.Max(reduction, reduction + (step * (asked - reduction)));
            }

            last = next;
            Assert.Equal(reduction, applied[n], DynamicsTolerance.SameGainDb);
        }
    }

    [Fact]
    public void Feedback_comes_back_from_a_partial_drop_sooner_than_feed_forward()
    {
        var input = Steady.Steps((24000, 0), (24000, -10));

        var forward = Steady.GainDb(Compress.Definition, Set("feed_forward", 4, 10, 120), input);
        var feedback = Steady.GainDb(Compress.Definition, Set("feedback", 4, 10, 120), input);

        Assert.True(Steady.TimeMs(feedback, 24000, g => g > -10.26) < 0.7 * Steady.TimeMs(forward, 24000, g => g > -10.26));
        Assert.Equal(-7.5, feedback[^1], 0.3);
    }

    [Theory]
    [InlineData("feed_forward", "peak")]
    [InlineData("feedback", "peak")]
    [InlineData("feed_forward", "rms")]
    [InlineData("feedback", "rms")]
    public void No_step_makes_the_gain_overshoot_or_ring(string topology, string detector)
    {
        foreach (var ratio in new double[] { 2, 20, 100 })
        {
            foreach (var attack in new[] { 0, 0.3, 10.0 })
            {
                var settings = Settings.Of(
                    Compress.Definition.Parameters,
                    (Compress.Topology, topology),
                    (Compress.Detector, detector),
                    (Compress.Ratio, ratio),
                    (Compress.Attack, attack));
                var gain = Steady.GainDb(Compress.Definition, settings, Steady.Steps((480, -60), (24000, 0)));

                // Around an edge without attack the low-pass rings, as it would on any edge.
                Assert.True(gain[^1] - gain.Min() < DynamicsTolerance.EdgeDb, $"ratio {ratio}, attack {attack}: {gain[^1] - gain.Min()} dB");
                for (var n = 480 + (2 * Steady.EdgeFrames); n < gain.Length; n++)
                {
                    Assert.True(gain[n] <= gain[n - 1] + DynamicsTolerance.EdgeDb, $"ratio {ratio}, attack {attack}, frame {n}: {gain[n] - gain[n - 1]} dB");
                }
            }
        }
    }

    [Theory]
    [InlineData("feed_forward")]
    [InlineData("feedback")]
    public void Minutes_of_the_same_noise_over_and_over_leave_no_drift(string topology)
    {
        const int Passes = 30;
        const int Windows = 600;
        var noise = Signals.Noise(Windows * Run.SampleRate / 100, 11);
        var work = new double[noise.Length];
        var context = new ProcessorContext(new AudioFormat(Run.SampleRate, 1), (long)Passes * noise.Length);
        var processor = (Compress)Compress.Definition.Create(Set(topology, 10, 3, 70), context);

        for (var pass = 0; pass < Passes; pass++)
        {
            noise.CopyTo(work, 0);
            processor.Process(new AudioBlock(new[] { work }, 0, work.Length), AudioBlock.None);
        }

        // Three minutes; the first pass starts from rest and does not count.
        var curve = processor.GainCurve.LowestGain;
        Assert.Equal(curve[Windows..((2 * Windows) - 1)].ToArray(), curve[((Passes - 1) * Windows)..((Passes * Windows) - 1)].ToArray());
        Assert.True(Spectrum.Decibels(curve[^1]) < -10);
    }

    private static Settings Set(string topology, double ratio, double attack, double release) => Settings.Of(
        Compress.Definition.Parameters,
        (Compress.Topology, topology),
        (Compress.Ratio, ratio),
        (Compress.Knee, 0.0),
        (Compress.Attack, attack),
        (Compress.Release, release));
}
