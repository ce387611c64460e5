using System.Globalization;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Dynamics;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>The compressor against the published gain computer, detector and loop.</summary>
internal static class CompressChecks
{
    public const string Note = """
        **How feedback maps.** A detector that listens to what comes out needs the slope 1 − R to make the ratio R true (with the
        feed-forward slope 1/R − 1 the effective ratio would be 2 − 1/R, never above 2:1). Such a loop shortens the detector's time
        constant by the ratio: τ/R. The detector is therefore slowed by R, so that threshold, ratio, attack and release mean the same
        for both topologies; the loop's pole is then that of the feed-forward detector, between 0 and 1 at any ratio, so it comes to rest
        without overshoot. An infinite ratio would need an infinite loop gain; ratios end at 100:1, a loop gain of 99.
        What remains the loop's own: after a partial drop the gain comes back sooner than a feed-forward one does.
        """;

    private const string Paper = "Giannoulis, Massberg and Reiss, JAES 60(6), 2012";
    private const double Left = 1 / Math.E;
    private static readonly string[] Topologies = ["feed_forward", "feedback"];

    public static IEnumerable<Check> All() => Topologies.SelectMany(Of).Concat(
    [
        .. Folding(),
        .. CompressLate.All(),
        .. CompressMoving.All(),
        new Check("compress", "feedback at 4:1 with the loop slope that makes the ratio true, −20 dB threshold, 0 dBFS in: level out", Paper + ", eq. (18)", Bar.Near(-15, 0.05, "dBFS", 3), () => StandingOut("feedback", -20, 4, 0, 0)),
    ]);

    // A plain compressor at eight times the rate and 3 dB, or 100 dB down.
    private static IEnumerable<Check> Folding()
    {
        const string Own = "own bar: a plain compressor at 8 times the rate, worked out beside it";
        foreach (var attack in new[] { 0, 0.05, 1, 10 })
        {
            var dial = attack.ToString(CultureInfo.InvariantCulture);
            yield return new Check("compress", $"sines 1 to 20 kHz, 0 dBFS, 10:1, attack {dial} ms, release 5, 20 and 70 ms: worst folded product, over the larger of a plain one's at 8 times the rate + 3 dB and −100 dB", Own, Bar.AtMost(0, "dB", 1), () => WorstOverPlainDb("feed_forward", 48000, attack, 1000));
        }

        foreach (var attack in new[] { 0, 0.05, 1, 10 })
        {
            var dial = attack.ToString(CultureInfo.InvariantCulture);
            yield return new Check("compress", $"the same, feedback, whose loop is closed twice a point, over a plain feedback one's: attack {dial} ms", Own + "; 6 dB more are allowed to the loop", Bar.AtMost(6, "dB", 1), () => WorstOverPlainDb("feedback", 48000, attack, 1000));
        }

        yield return new Check("compress", "the same, feed-forward at 44.1 kHz: attack 0.05 ms, every third sine", Own, Bar.AtMost(0, "dB", 1), () => WorstOverPlainDb("feed_forward", 44100, 0.05, 3000));
        yield return new Check("compress", "the same at 96 kHz", Own, Bar.AtMost(0, "dB", 1), () => WorstOverPlainDb("feed_forward", 96000, 0.05, 3000));
        yield return new Check("compress", "sines of 6, 8, 12, 16 and 19.2 kHz at eight phases: gain, largest distance from −18 dB at 10:1", "common practice: a sine is read by its peak", Bar.AtMost(0.01, "dB", 4), WorstPhaseDb);
        yield return new Check("compress", "look-ahead 5 ms: frames by which the gain comes sooner, print in time", "own bar", Bar.Exactly(240, "frames"), LookAheadFrames);
    }

    private static double WorstOverPlainDb(string topology, int sampleRate, double attack, int stepHz) =>
        (from release in new double[] { 5, 20, 70 }
         from step in Enumerable.Range(0, 20)
         let freqHz = 1000 + (step * stepHz)
         where freqHz <= 20000
         let plain = FoldedProducts.OfPlain(freqHz, 1, sampleRate, -20, 10, 6, attack, release, topology == "feedback")
         let folded = FoldedProducts.OfCompress(freqHz, 1, sampleRate, (Compress.Topology, topology), (Compress.Ratio, 10.0), (Compress.Attack, attack), (Compress.Release, release))
         select folded - Math.Max(plain + 3, -100)).Max();

    private static double WorstPhaseDb() =>
        (from freqHz in new double[] { 6000, 8000, 12000, 16000, 19200 }
         from phase in Enumerable.Range(0, 8)
         let output = Run.Through(Compress.Definition, Settings.Of(Compress.Definition.Parameters, (Compress.Ratio, 10.0)), [Signals.Sine(48000, freqHz, 1, phase * Math.PI / 8)])[0]
         select Math.Abs(Spectrum.Decibels(Spectrum.AmplitudeAt(output.AsSpan(24000), freqHz)) + 18)).Max();

    private static double LookAheadFrames()
    {
        int Half(double ahead) => Array.FindIndex(Steady.GainDb(Compress.Definition, Set("feed_forward", (Compress.Attack, 1.0), (Compress.Ahead, ahead)), Steady.Steps((4800, -40), (9600, 0))), g => g < -7.5);
        return Half(0) - Half(5);
    }

    private static IEnumerable<Check> Of(string topology)
    {
        var name = topology == "feedback" ? "feedback" : "feed-forward";
        var part = topology == "feedback" ? 0.05 : 0.03;
        yield return new Check("compress", $"{name}: static curve, ratios to 20:1, knees 0, 6 and 24 dB, −70 to +6 dBFS, worst distance", Paper + ", eq. (4)", Bar.AtMost(0.05, "dB", 6), () => WorstCurveDb(topology, [1, 1.5, 2, 4, 10, 20]));
        yield return new Check("compress", $"{name}: the same at 100:1", Paper + ", eq. (4)", Bar.AtMost(0.05, "dB", 6), () => WorstCurveDb(topology, [100]));
        yield return new Check("compress", $"{name}: attack, 63 % of the way, 3 to 50 ms, ratios 2 to 100, worst error", Paper + ", eq. (7)", Bar.AtMost(100 * part, "%", 2), () => WorstTimePct(topology, isRelease: false));
        yield return new Check("compress", $"{name}: release, 63 % of the way, 10 to 160 ms, ratios 2 to 100, worst error", Paper + ", eq. (7)", Bar.AtMost(100 * part, "%", 2), () => WorstTimePct(topology, isRelease: true));

        // The marks follow from g∞(1 − aⁿ); the feedback row is that of a loop whose effective time is 2.5 ms.
        var (attack, marks) = topology == "feedback" ? (2.5, new[] { 2.500, 4.021, 5.042, 5.750 }) : (10, [10.000, 16.083, 20.146, 23.021]);
        foreach (var (mark, label, level) in new[] { (0, "63 %", -15 * (1 - Left)), (1, "within 3 dB", -12), (2, "within 2 dB", -13), (3, "90 %", -13.5) })
        {
            yield return new Check(
                "compress",
                $"{name}: step −40 to 0 dBFS at 4:1, {attack.ToString(CultureInfo.InvariantCulture)} ms: time to {label}",
                Paper + ", eq. (5) to (8)",
                Bar.Near(marks[mark], Math.Round(marks[mark] * part, 3), "ms", 3),
                () => Steady.TimeMs(Steady.GainDb(Compress.Definition, Set(topology, (Compress.Ratio, 4.0), (Compress.Attack, attack)), Steady.Steps((480, -40), (9600, 0))), 480, g => g <= level));
        }

        foreach (var (kind, signal) in new (string, Func<double[]>)[] { ("sine", () => Signals.Sine(4 * 48000, 1000, 0.5)), ("square wave", () => Steady.Level(4 * 48000, -6)), ("noise", () => Softened(Signals.Noise(4 * 48000, 7, 0.5))) })
        {
            yield return new Check("compress", $"{name}: RMS detector on a {kind}, distance from its RMS level times the slope", Paper + ", eq. (10)", Bar.AtMost(0.05, "dB", 3), () => RmsErrorDb(topology, signal()));
        }

        yield return new Check("compress", $"{name}: stereo link 100 %: difference between the sides' gains, 12 dB apart", "common practice: one gain keeps the image", Bar.AtMost(1e-6, "dB", 6), () => Math.Abs(SideGain(topology, 100, 0) - SideGain(topology, 100, 1)));
        yield return new Check("compress", $"{name}: stereo link 0 %: gain of the side 12 dB softer", Paper + ", eq. (4)", Bar.Near(-6, 0.05, "dB", 3), () => SideGain(topology, 0, 1));
        yield return new Check("compress", $"{name}: external key alone: gain of a −50 dBFS signal under a 0 dBFS key", Paper + ", eq. (4)", Bar.Near(-15, 0.05, "dB", 3), () => Steady.GainDb(Compress.Definition, Set(topology, (Compress.Ratio, 4.0)), Steady.Level(24000, -50), Steady.Level(24000, 0))[^1]);
        yield return new Check("compress", $"{name}: key high-pass 200 Hz, 100 Hz sine: level the detector sees", "Butterworth: −10 log(1 + Ω⁻⁴)", Bar.Near(-12.304, 0.1, "dB", 3), () => KeySeenDb(topology, 100));
        yield return new Check("compress", $"{name}: largest gain move in a frame over what the time constant allows (no zipper)", "from eq. (5): G(1 − a)", Bar.AtMost(1.03, "", 3), () => LargestMove(topology));
        yield return new Check("compress", $"{name}: overshoot of the gain after a step, ratios 2 to 100, attack 0 to 10 ms, worst", Paper + ", eq. (17); the low-pass of the gain's fast part rings on an edge", Bar.AtMost(0.02, "dB", 3), () => WorstOvershootDb(topology));
        yield return new Check("compress", $"{name}: pink noise over and over: frames of the third pass that differ from the second by a bit, peak and RMS (none: no pass ever differs, so 24 h do not drift)", "own bar, by induction", Bar.Exactly(0, "frames"), () => new[] { "peak", "rms" }.Sum(d => Drift(topology, d)));
    }

    // Eq. (4), branch by branch as printed.
    private static double Published(double threshold, double ratio, double knee, double x) =>
        2 * (x - threshold) < -knee ? x
        : 2 * Math.Abs(x - threshold) <= knee && knee > 0 ? x + (((1 / ratio) - 1) * Math.Pow(x - threshold + (knee / 2), 2) / (2 * knee))
        : threshold + ((x - threshold) / ratio);

    private static double WorstCurveDb(string topology, double[] ratios) =>
        (from ratio in ratios
         from setting in new (double Threshold, double Knee)[] { (-20, 0), (-37.5, 6), (-10, 24) }
         from level in new double[] { -70, -40, -24, -18, -11, -3, 0, 6 }
         select Math.Abs(StandingOut(topology, setting.Threshold, ratio, setting.Knee, level) - Published(setting.Threshold, ratio, setting.Knee, level))).Max();

    private static double StandingOut(string topology, double threshold, double ratio, double knee, double inDb)
    {
        var settings = Settings.Of(
            Compress.Definition.Parameters,
            (Compress.Topology, topology),
            (Compress.Threshold, threshold),
            (Compress.Ratio, ratio),
            (Compress.Knee, knee),
            (Compress.Attack, 0.5),
            (Compress.Release, 5.0));
        return inDb + Steady.GainDb(Compress.Definition, settings, Steady.Level(960, inDb))[^1];
    }

    private static double WorstTimePct(string topology, bool isRelease)
    {
        var worst = 0.0;
        foreach (var ratio in new double[] { 2, 4, 20, 100 })
        {
            foreach (var (attack, release) in new (double, double)[] { (3, 70), (10, 120), (30, 160), (20, 20), (50, 10) })
            {
                var rise = Steady.Frames(20 * attack);
                var gain = Steady.GainDb(
                    Compress.Definition,
                    Set(topology, (Compress.Ratio, ratio), (Compress.Attack, attack), (Compress.Release, release)),
                    Steady.Steps((1000, -40), (rise, 0), (Steady.Frames(4 * release), -40)));
                var full = -20 * (1 - (1 / ratio));
                var (dial, time) = isRelease
                    ? (release, Steady.TimeMs(gain, 1000 + rise, g => g >= full * Left))
                    : (attack, Steady.TimeMs(gain, 1000, g => g <= full * (1 - Left)));
                worst = Math.Max(worst, 100 * Math.Abs(time - dial) / dial);
            }
        }

        return worst;
    }

    // What lies above 20 kHz is not all read.
    private static double[] Softened(double[] noise) => [.. noise.Select((x, n) => n == 0 ? x : (x + noise[n - 1]) / 2)];

    private static double RmsErrorDb(string topology, double[] signal)
    {
        var settings = Set(topology, (Compress.Threshold, -30.0), (Compress.Ratio, 4.0), (Compress.Detector, "rms"), (Compress.RmsTime, 400.0), (Compress.Release, 400.0));
        var rmsDb = 10 * Math.Log10(signal.Average(x => x * x));
        var output = Run.Through(Compress.Definition, settings, [signal])[0];
        var gainDb = 10 * Math.Log10(output.Skip(3 * 48000).Sum(y => y * y) / signal.Skip(3 * 48000).Sum(x => x * x));
        return Math.Abs(gainDb - (0.75 * (-30 - rmsDb)));
    }

    private static double SideGain(string topology, double link, int side)
    {
        double[][] input = [Steady.Level(24000, 0), Steady.Level(24000, -12)];
        var output = Steady.Through(Compress.Definition, Set(topology, (Compress.Ratio, 4.0), (Compress.Link, link)), input);
        return Steady.GainDb(input[side], output[side])[^1];
    }

    private static double KeySeenDb(string topology, double freqHz)
    {
        var settings = Set(topology, (Compress.Ratio, 4.0), (Compress.KeyHighPass, 200.0), (Compress.Threshold, -40.0), (Compress.Release, 1000.0));
        var output = Run.Through(Compress.Definition, settings, [Signals.Sine(96000, freqHz)])[0];
        return (Spectrum.Decibels(output.Skip(72000).Max(Math.Abs)) / -0.75) - 40;
    }

    private static double LargestMove(string topology)
    {
        const double AttackMs = 10;
        var gain = Steady.GainDb(Compress.Definition, Set(topology, (Compress.Ratio, 4.0), (Compress.Attack, AttackMs)), Steady.Steps((480, -40), (9600, 0), (9600, -40)));
        var allowed = 15 * (1 - Math.Exp(-1 / (AttackMs * 48)));
        return Enumerable.Range(1, gain.Length - 1).Max(n => Math.Abs(gain[n] - gain[n - 1])) / allowed;
    }

    private static double WorstOvershootDb(string topology)
    {
        var worst = 0.0;
        foreach (var detector in new[] { "peak", "rms" })
        {
            foreach (var ratio in new double[] { 2, 20, 100 })
            {
                foreach (var attack in new[] { 0, 0.3, 10.0 })
                {
                    var gain = Steady.GainDb(Compress.Definition, Set(topology, (Compress.Ratio, ratio), (Compress.Attack, attack), (Compress.Detector, detector)), Steady.Steps((480, -60), (24000, 0)));
                    worst = Math.Max(worst, gain[^1] - gain.Min());
                }
            }
        }

        return worst;
    }

    private static double Drift(string topology, string detector)
    {
        var noise = PinkNoise(10 * 48000);
        var processor = Compress.Definition.Create(Set(topology, (Compress.Ratio, 10.0), (Compress.Detector, detector)), new ProcessorContext(new AudioFormat(48000, 1), 3L * noise.Length));
        var passes = Enumerable.Range(0, 3).Select(_ => Run.Through(processor, [noise], 1)[0]).ToArray();
        return passes[1].Zip(passes[2], (a, b) => a == b ? 0 : 1).Sum();
    }

    // White noise through a cascade of first-order shelves, −3 dB an octave (common practice).
    private static double[] PinkNoise(int frames)
    {
        var noise = Signals.Noise(frames, 11);
        for (var corner = 20.0; corner < 20000; corner *= 4)
        {
            new Dsp.Filters.FilterCascade(Dsp.Filters.BiquadDesign.FirstOrderHighShelf(corner, -6.02, 48000)).Process(noise);
        }

        return noise;
    }

    private static Settings Set(string topology, params (Parameter, object)[] more) => Settings.Of(
        Compress.Definition.Parameters,
        [(Compress.Topology, topology), (Compress.Knee, 0.0), .. more]);
}
