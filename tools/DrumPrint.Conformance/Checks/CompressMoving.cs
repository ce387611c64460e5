using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Dynamics;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>Times of a compressor that move with the crest factor and with depth, and the filters of its key.</summary>
internal static class CompressMoving
{
    private const string Crest = "Giannoulis, Massberg and Reiss, JAES 61(10), 2013 (from memory), in the detector of JAES 60(6), 2012, eq. (17)";
    private const string Cell = "dR/dt = −(R / τ)(1 + R / D), solved: the two recombinations of a light-dependent cell, Bube, Photoconductivity of Solids, 1960 (from memory)";
    private static readonly int[] Edges = [4800, 24000, 48000, 48960];

    public static IEnumerable<Check> All() =>
    [
        .. new[] { (80.0, 1000.0), (10, 200) }.Select(times => new Check("compress", $"times by_crest, attack {times.Item1} ms and release {times.Item2} ms: steps of 400 and 20 ms, worst distance from the formulas worked out plainly, 40 frames about each edge left out", Crest, Bar.AtMost(DynamicsTolerance.MovingDb, "dB", 3), () => CrestDb(times.Item1, times.Item2))),
        .. new[] { 3.0, 10, 40 }.Select(deep => new Check("compress", $"deep_db {deep}, release 200 ms, 15 dB deep: worst distance from the formula, 10 to 800 ms", Cell, Bar.AtMost(DynamicsTolerance.MovingDb, "dB", 3), () => DeepDb(deep))),
        new("compress", "key low-pass 1 kHz, 4 kHz sine: level the detector sees", "Butterworth: −10 log(1 + Ω⁴)", Bar.Near(-24.099, 0.1, "dB", 3), () => SeenDb(4000, (Compress.KeyLowPass, 1000.0))),
        new("compress", "key bell 500 Hz, −12 dB, 500 Hz sine: level the detector sees", "Audio EQ Cookbook, analog H(s)", Bar.Near(-12, 0.1, "dB", 3), () => SeenDb(500, (Compress.KeyBell, 500.0), (Compress.KeyBellGain, -12.0))),
    ];

    private static double CrestDb(double attackMs, double releaseMs)
    {
        var input = Steady.Steps((4800, -40), (19200, 0), (24000, -40), (960, -2), (24000, -40));
        var gain = GainDb(input, (Compress.Times, "by_crest"), (Compress.Attack, attackMs), (Compress.Release, releaseMs));
        var expected = MovingDetector.ByCrest(input, attackMs, releaseMs, -20, 4);
        return Enumerable.Range(0, input.Length).Where(n => !Edges.Any(e => Math.Abs(n - e) <= 40)).Max(n => Math.Abs(expected[n] + gain[n]));
    }

    private static double DeepDb(double deepDb)
    {
        var gain = GainDb(Steady.Steps((1000, -40), (9600, 0), (48000, -40)), (Compress.Attack, 0.0), (Compress.Release, 200.0), (Compress.Deep, deepDb));
        return new[] { 10.0, 50, 150, 400, 800 }.Max(ms =>
        {
            var left = Math.Exp(-ms / 200);
            return Math.Abs(gain[10600 + Steady.Frames(ms)] + (15 * left / (1 + ((1 - left) * 15 / deepDb))));
        });
    }

    private static double SeenDb(double freqHz, params (Parameter, object)[] values)
    {
        var settings = Settings.Of(Compress.Definition.Parameters, [(Compress.Threshold, -40.0), (Compress.Knee, 0.0), (Compress.Release, 1000.0), .. values]);
        var output = Run.Through(Compress.Definition, settings, [Signals.Sine(96000, freqHz)])[0];
        return (Spectrum.Decibels(output.Skip(72000).Max(Math.Abs)) / -0.75) - 40;
    }

    private static double[] GainDb(double[] input, params (Parameter, object)[] values) => Steady.GainDb(
        Compress.Definition,
        Settings.Of(Compress.Definition.Parameters, [(Compress.Threshold, -20.0), (Compress.Ratio, 4.0), (Compress.Knee, 0.0), .. values]),
        input);
}
