using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Dynamics;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>The gate's way to expand, against its formulas, and the ducker.</summary>
internal static class ExpandDuckChecks
{
    public const string Note = "Expand: open at −34 dBFS, ratio 2, range −40 dB, attack 1 ms, hold 20 ms, release 100 ms. Duck: threshold −30 dBFS, 6 dB, 1 ms, hold 10 ms, 120 ms.";

    private const double OpenDb = -34;
    private const double RangeDb = -40;
    private const string Formula = "asked = min(range, (ratio − 1) · max(0, open − level)), as documented";
    private const string Machine = "trigger with hold, textbook";

    private static readonly double[] Key = Steady.Steps((1000, -40), (2000, -20), (9000, -40));

    public static IEnumerable<Check> All() =>
    [
        new("expand", "standing levels −90 to 0 dBFS, ratios 1 to 10: worst distance from the static curve", Formula, Bar.AtMost(1e-6, "dB", 6), WorstCurveDb),
        new("expand", "60 Hz, 3 to 30 dB under the open level, the processor's own defaults: distortion, worst", "THD as IEC 60268-3 reckons it (from memory)", Bar.AtMost(0.05, "%", 4), () => WorstDistortionPct(60, [])),
        new("expand", "the same with release 20 ms", "THD as IEC 60268-3 reckons it (from memory)", Bar.AtMost(0.05, "%", 4), () => WorstDistortionPct(60, [(Gate.Release, 20.0)])),
        new("expand", "30 Hz, hold 20 ms, release 20 ms", "THD as IEC 60268-3 reckons it (from memory)", Bar.AtMost(0.05, "%", 4), () => WorstDistortionPct(30, [(Gate.Hold, 20.0), (Gate.Release, 20.0)])),
        new("expand", "hold at −36, −40 and −50 dBFS: frames the gain stands still after the last at that level, worst distance from 960", Formula, Bar.AtMost(3, "frames", 0), () => new[] { -36.0, -40, -50 }.Max(HoldError)),
        new("expand", "attack 20 ms at a swing of 4, 10 and 20 dB: frames from a tenth to nine tenths of it, worst distance from their part of the full swing's", Formula, Bar.AtMost(2, "frames", 1), () => new[] { 4.0, 10, 20 }.Max(AttackError)),
        new("duck", "attack: frames to the full amount", Machine, Bar.Exactly(48, "frames"), () => Array.FindIndex(Ducked(), g => g <= -6 + 1e-9) - Steady.FirstAtLeast(Key, -30)),
        new("duck", "hold: frames at the full amount after the last loud one", Machine, Bar.Exactly(480, "frames"), () => Array.FindLastIndex(Ducked(), g => g <= -6 + 1e-9) - Steady.LastAtLeast(Key, -30)),
        new("duck", "release: frames from there to nothing", Machine, Bar.Exactly(5760, "frames"), () => Array.FindLastIndex(Ducked(), g => g < 0) + 1 - Steady.LastAtLeast(Key, -30) - 480),
        new("duck", "amount: worst distance while the key is loud", Machine, Bar.AtMost(1e-6, "dB", 6), () => Ducked()[1100..2900].Max(g => Math.Abs(g + 6))),
        new("duck", "attack and release: worst distance from a raised cosine, as part of full scale", "raised cosine, as documented", Bar.AtMost(1e-9, "", 12), WorstRamp),
    ];

    private static double WorstCurveDb() =>
        (from ratio in new double[] { 1, 2, 4, 10 }
         from level in new double[] { -90, -60, -50, -43, -36, -34.5, -34, -20, 0 }
         select Math.Abs(GainDb([(Gate.Ratio, ratio)], Steady.Level(14400, level))[^1] - Math.Max(RangeDb, Math.Min(0, (ratio - 1) * (level - OpenDb))))).Max();

    private static double WorstDistortionPct(double freqHz, (Parameter, object)[] values)
    {
        var settings = Settings.Of(Gate.Definition.Parameters, [(Gate.Action, "expand"), .. values]);
        return new[] { 3.0, 10, 20, 30 }.Max(below =>
        {
            var output = Run.Through(Gate.Definition, settings, [Signals.Sine(96000, freqHz, Steady.Amplitude(-36 - below), 0.3)])[0].AsSpan(48000).ToArray();
            var harmonics = Enumerable.Range(2, 19).Sum(h => Math.Pow(Spectrum.AmplitudeAt(output, h * freqHz), 2));
            return 100 * Math.Sqrt(harmonics) / Spectrum.AmplitudeAt(output, freqHz);
        });
    }

    private static double HoldError(double levelDb)
    {
        var input = Steady.Steps((9600, levelDb), (9600, -80));
        var gain = GainDb([], input);
        var left = Array.FindIndex(gain, 9000, g => g < levelDb - OpenDb - 0.02) - 1;
        return Math.Abs(left - Steady.LastAtLeast(input, levelDb - 0.01) - 960);
    }

    private static double AttackError(double swingDb)
    {
        var gain = GainDb([(Gate.Attack, 20.0)], Steady.Steps((9600, OpenDb - swingDb), (9600, -20)));
        int First(double part) => Array.FindIndex(gain, 9000, g => g > (part - 1) * swingDb);
        return Math.Abs(First(0.9) - First(0.1) - (0.8 * 960 * swingDb / -RangeDb));
    }

    private static double[] Ducked() => LazyDucked.Value;

    private static readonly Lazy<double[]> LazyDucked = new(() =>
        Steady.GainDb(Duck.Definition, Settings.Of(Duck.Definition.Parameters, (Duck.Hold, 10.0)), Steady.Level(12000, -12), Key));

    private static double WorstRamp()
    {
        var low = Steady.Amplitude(-6);
        var (first, last) = (Steady.FirstAtLeast(Key, -30), Steady.LastAtLeast(Key, -30) + 480);
        double Shape(double part) => (1 - Math.Cos(Math.PI * part)) / 2;
        return Math.Max(
            Enumerable.Range(0, 49).Max(i => Math.Abs(Steady.Amplitude(Ducked()[first + i]) - 1 + ((1 - low) * Shape(i / 48.0)))),
            Enumerable.Range(0, 5761).Max(i => Math.Abs(Steady.Amplitude(Ducked()[last + i]) - low - ((1 - low) * Shape(i / 5760.0)))));
    }

    private static double[] GainDb((Parameter, object)[] more, double[] input) => Steady.GainDb(
        Gate.Definition,
        Settings.Of(Gate.Definition.Parameters, [(Gate.Action, "expand"), (Gate.Open, OpenDb), (Gate.Ratio, 2.0), (Gate.Range, RangeDb), (Gate.Attack, 1.0), (Gate.Hold, 20.0), (Gate.Release, 100.0), .. more]),
        input);
}
