using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>What only scales, turns over or spreads: gain, polarity and width.</summary>
internal static class PlainChecks
{
    private const string Definition = "definition";
    private const double RoundingDb = -300;

    private static readonly double[] Left = Signals.Noise(20000, 91, 0.5);
    private static readonly double[] Right = Signals.Noise(20000, 92, 0.5);

    public static IEnumerable<Check> All() =>
    [
        new("gain", "level of noise at −120, −60, −6, −0.1, 0.1, 6 and 60 dB, the one furthest off", "definition: 20 log of the ratio", Bar.AtMost(0.000001, "dB", 6), GainDb),
        new("gain", "0 dB: samples that differ by a bit", Definition, Bar.Exactly(0, "samples"), () => Differing(Gained(0), [Left, Right])),
        new("polarity", "both channels: samples that are not the wave upside down, to the bit", Definition, Bar.Exactly(0, "samples"), () => Differing(Turned("both"), [Negative(Left), Negative(Right)])),
        new("polarity", "left alone, and right alone: samples that differ by a bit", Definition, Bar.Exactly(0, "samples"), () => Differing(Turned("left"), [Negative(Left), Right]) + Differing(Turned("right"), [Left, Negative(Right)])),
        new("polarity", "silence turned over: samples that are not plain zero", Definition, Bar.Exactly(0, "samples"), () => Run.Through(Polarity.Definition, Settings.Of(Polarity.Definition.Parameters), [Signals.Silence(100)])[0].Count(double.IsNegative)),
        new("width", "100 %: samples that differ by a bit", Definition, Bar.Exactly(0, "samples"), () => Differing(Widened(100), [Left, Right])),
        new("width", "0 %: samples where left and right differ by a bit", Definition, Bar.Exactly(0, "samples"), () => Enumerable.Range(0, Left.Length).Count(n => Widened0.Value[0][n] != Widened0.Value[1][n])),
        new("width", "sum of both sides at 0, 50, 150 and 200 %, largest change", "definition: the middle stays", Bar.AtMost(RoundingDb, "dB", 0, floor: -340), () => new double[] { 0, 50, 150, 200 }.Max(w => Worst(Widened(w), (l, r) => l + r, 1))),
        new("width", "difference of both sides at 50, 150 and 200 %, distance from its share", "definition: the side is scaled", Bar.AtMost(RoundingDb, "dB", 0, floor: -340), () => new double[] { 50, 150, 200 }.Max(w => Worst(Widened(w), (l, r) => l - r, w / 100))),
    ];

    private static readonly Lazy<double[][]> Widened0 = new(() => Widened(0));

    private static double[][] Gained(double db) => Run.Through(Gain.Definition, Settings.Of(Gain.Definition.Parameters, (Gain.Level, db)), [Left, Right]);

    private static double[][] Turned(string invert) => Run.Through(Polarity.Definition, Settings.Of(Polarity.Definition.Parameters, (Polarity.Invert, invert)), [Left, Right]);

    private static double[][] Widened(double pct) => Run.Through(Width.Definition, Settings.Of(Width.Definition.Parameters, (Width.Amount, pct)), [Left, Right]);

    private static double[] Negative(double[] x) => Array.ConvertAll(x, v => -v);

    private static double GainDb() => new[] { -120, -60, -6, -0.1, 0.1, 6, 60 }.Max(db => Math.Abs(Spectrum.Decibels(Gained(db)[0].Max() / Left.Max()) - db));

    private static double Worst(double[][] output, Func<double, double, double> of, double share) => Spectrum.Decibels(
        Enumerable.Range(0, Left.Length).Max(n => Math.Abs(of(output[0][n], output[1][n]) - (share * of(Left[n], Right[n])))));

    private static double Differing(double[][] output, double[][] wanted) => output.Zip(wanted, (a, b) => Enumerable.Range(0, a.Length).Count(n => a[n] != b[n])).Sum();
}
