using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>Bands and processors on a part of a stereo signal, against the same on that part by itself.</summary>
internal static class EqSides
{
    private const string Definition = "M = (L + R) / 2, S = (L − R) / 2, L = M + S, R = M − S";
    private static readonly double[] Left = [.. new double[200], .. Signals.Hits(9600, 3000, 900, seed: 1, level: 0.8)];
    private static readonly double[] Right = [.. new double[200], .. Signals.Hits(9600, 2500, 700, seed: 2, level: 0.6)];

    public static IEnumerable<Check> All() =>
    [
        Null("bands of 0 dB on mid and on side: largest difference left", () => Worst([Left, Right], Through([Left, Right], Eq.Definition.With(Eq.Bands.To(Bell(0, "mid"), Bell(0, "side")))))),
        Null("the same with linear phase", () => Worst([Left, Right], Through([Left, Right], Eq.Definition.With(Eq.Phase.To("linear"), Eq.Bands.To(Bell(0, "mid"), Bell(0, "side")))))),
        Null("a bell on the left: largest difference on the right", () => Worst([Right], Through([Left, Right], Eq.Definition.With(Eq.Bands.To(Bell(9, "left"))))[1..])),
        .. new[] { "mid", "side" }.SelectMany(on => new[]
        {
            Null($"a bell on the {on} against an equaliser of the {on} alone", () => Alone(on, o => Eq.Definition.With(Eq.Bands.To(Bell(9, o))))),
            Null($"`compress` on the {on} against a compressor of the {on} alone", () => Alone(on, o => Compress.Definition.With(Compress.Threshold.To(-30), Compress.On.To(o)))),
            Null($"`saturate` on the {on} against a saturation of the {on} alone", () => Alone(on, o => Saturate.Definition.With(Saturate.Drive.To(12), Saturate.On.To(o)))),
        }),
    ];

    private static Check Null(string claim, Func<double> measure) =>
        new("eq", claim, Definition, Bar.AtMost(-280, "dB", 0, floor: -300), () => Spectrum.Decibels(Math.Max(measure(), 1e-30)));

    private static Item Bell(double gain, string on) => Eq.Bell.With(Eq.Bell.Freq.To(800), Eq.Bell.Gain.To(gain), Eq.Bell.On.To(on));

    private static double Alone(string on, Func<string, ProcessorStep> step)
    {
        double[][] parts = [[.. Left.Zip(Right, (l, r) => (l + r) / 2)], [.. Left.Zip(Right, (l, r) => (l - r) / 2)]];
        var own = on == "mid" ? 0 : 1;
        parts[own] = Through([parts[own]], step("both"))[0];
        return Worst([[.. parts[0].Zip(parts[1], (m, s) => m + s)], [.. parts[0].Zip(parts[1], (m, s) => m - s)]], Through([Left, Right], step(on)));
    }

    private static double[][] Through(double[][] input, ProcessorStep step) => WholeSignal.Through(input, Run.SampleRate, step);

    private static double Worst(double[][] expected, double[][] actual) =>
        expected.Zip(actual).Max(pair => pair.First.Zip(pair.Second, (a, b) => Math.Abs(a - b)).Take(Left.Length).Max());
}
