using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Tests.Support;
using DrumPrint.Dsp.WordLength;
using MathNet.Numerics.Statistics;

namespace DrumPrint.Conformance.Checks;

/// <summary>Rounding to shorter words against theory.</summary>
internal static class DitherChecks
{
    private const int Frames = 400_000;
    private const string Theory = "q²/12 undithered, q²/4 with triangular dither (textbook)";

    public static IEnumerable<Check> All() =>
    [
        .. from bits in new[] { 16, 24 }
           from kind in new[] { (Dither.None, "no dither", 1.0 / 12), (Dither.Tpdf, "TPDF", 0.25) }
           select new Check("dither", $"{bits} bit, {kind.Item2}: error power against theory", Theory, Bar.Near(0, WordLengthTolerance.PowerDb, "dB", 3), () => 10 * Math.Log10(Power(Error(Signals.Noise(Frames, 7, 0.5), bits, kind.Item1)) / kind.Item3)),
        .. new[] { (16, Dither.None, "no dither", -98.091), (16, Dither.Tpdf, "TPDF", -93.319), (24, Dither.None, "no dither", -146.255), (24, Dither.Tpdf, "TPDF", -141.484) }
            .Select(c => new Check("dither", $"{c.Item1} bit, {c.Item3}: noise under a 997 Hz sine, against a full-scale sine", "computed from " + Theory, Bar.Near(c.Item4, WordLengthTolerance.PowerDb, "dB", 3), () => 10 * Math.Log10(Power(Error(Signals.Sine(Frames, 997, 0.9), c.Item1, c.Item2)) * Math.Pow(4, 1 - c.Item1) / 0.5))),
        .. new[] { 16, 24 }.SelectMany(bits => new[] { (0.4, "0.4 of a step"), (20.0, "20 steps") }.Select(level => new Check("dither", $"{bits} bit, TPDF: correlation of the error with a sine of {level.Item2}", "none with triangular dither (textbook)", Bar.Near(0, WordLengthTolerance.Correlation, "", 4), () => CorrelationOf(bits, level.Item1)))),
        new("dither", "TPDF: mean of the error wherever a level lies between steps, worst of seven, in steps", "0 (textbook)", Bar.AtMost(WordLengthTolerance.MeanSteps, "steps", 4), () => Steps().Max(e => Math.Abs(e.Mean()))),
        new("dither", "TPDF: variance of the error wherever a level lies between steps, the one furthest off, in steps²", "¼ (textbook)", Bar.Near(0.25, WordLengthTolerance.VarianceSteps, "", 4), () => Steps().Select(e => e.PopulationVariance()).MaxBy(v => Math.Abs(v - 0.25))),
        new("dither", "two runs under one print name: samples that differ by a bit", "own bar", Bar.Exactly(0, "samples"), () => Rounded(Signals.Noise(Frames, 3), 16, Dither.Tpdf, "01_Kick").Zip(Rounded(Signals.Noise(Frames, 3), 16, Dither.Tpdf, "01_Kick"), (a, b) => a == b ? 0 : 1).Sum()),
        new("dither", "two print names: correlation of their dither", "own bar", Bar.Near(0, WordLengthTolerance.Correlation, "", 4), () => Correlation.Pearson(Error(new double[Frames], 16, Dither.Tpdf), Error(new double[Frames], 16, Dither.Tpdf, "02_Snare"))),
    ];

    private static IEnumerable<double[]> Steps() => new[] { 0.0, 0.1, 0.25, 0.5, 0.75, 0.9, -0.3 }.Select(s => Error([.. Enumerable.Repeat((1000 + s) * Math.Pow(2, -15), Frames)], 16, Dither.Tpdf));

    private static double CorrelationOf(int bits, double steps)
    {
        var sine = Signals.Sine(Frames, 997, steps * Math.Pow(2, 1 - bits));
        return Correlation.Pearson(sine, Error(sine, bits, Dither.Tpdf));
    }

    private static double[] Rounded(double[] signal, int bits, Dither dither, string name)
    {
        var block = new[] { (double[])signal.Clone() };
        new Quantizer(bits, dither, CounterNoise.FromName(name), 1).Process(new AudioBlock(block, 0, signal.Length));
        return block[0];
    }

    // In steps.
    private static double[] Error(double[] signal, int bits, Dither dither, string name = "01_Kick")
    {
        var rounded = Rounded(signal, bits, dither, name);
        return [.. rounded.Zip(signal, (a, b) => (a - b) * Math.Pow(2, bits - 1))];
    }

    private static double Power(double[] signal) => signal.Average(x => x * x);
}
