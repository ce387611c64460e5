using System.Numerics;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>All-passes and turns by one angle: levels that stay, and phases by their formulas.</summary>
internal static class PhaseChecks
{
    public const string Note = """
        Read from the answer to a click, 20 Hz to 0.45 of the rate. All-passes stand at 60 Hz to 16 kHz, order 1 and order 2 with q 0.5 to 4, and are held
        against the analog formula where the bilinear transform looks at it. Turns are by ±10° to ±150°. A turn begins before the wave does, whatever
        makes it; how loud that is of a tom's hit is told.
        """;

    private const string Cookbook = "Audio EQ Cookbook, all-pass, at Ω = tan(π f / rate) / tan(π f₀ / rate)";
    private const string Angle = "definition: e^jθ";

    private static readonly int[] Rates = [44100, 48000, 96000, 192000];

    public static IEnumerable<Check> All() =>
    [
        .. Rates.SelectMany(rate => Rows($"all-passes at {EqChecks.Khz(rate)}", Cookbook, () => AllPasses(rate))),
        .. Rates.SelectMany(rate => Rows($"turns at {EqChecks.Khz(rate)}", Angle, () => Turns(rate))),
        new("phase", "no turn, and a turn by 180° against `polarity`: samples that differ by a bit", "definition", Bar.Exactly(0, "samples"), Changed),
        new("phase", "a tom's hit at 110 Hz turned by 90°: highest level 2 ms before the hit and earlier, of its peak", "own figure", Bar.Told("dB", 1), () => BeforeDb(110, 2)),
        new("phase", "the same 10 ms before the hit and earlier", "own figure", Bar.Told("dB", 1), () => BeforeDb(110, 10)),
    ];

    private static IEnumerable<Check> Rows(string what, string source, Func<IEnumerable<Complex>> ratios)
    {
        var lazy = new Lazy<Complex[]>(() => [.. ratios()]);
        yield return new("phase", $"{what}: level, worst distance from 0 dB", source, Bar.AtMost(FilterTolerance.AllPassDb, "dB", 5), () => lazy.Value.Max(r => Math.Abs(Spectrum.Decibels(r.Magnitude))));
        yield return new("phase", $"{what}: phase, worst distance", source, Bar.AtMost(FilterTolerance.AllPassDegrees, "°", 4), () => lazy.Value.Max(r => Math.Abs(r.Phase) * 180 / Math.PI));
    }

    // What came out over what should have.
    private static ParallelQuery<Complex> AllPasses(int rate) =>
        (from freq in new[] { 60.0, 400, 5000, 16000 } from shape in new[] { (Order: 1.0, Q: 1.0), (2, 0.5), (2, 0.7071), (2, 4) } select (freq, shape.Order, shape.Q)).AsParallel().SelectMany(c =>
        {
            var impulse = WholeSignal.Through([[1.0]], rate, Phase.Definition.With(Phase.AllPass.To(c.freq), Phase.Order.To(c.Order), Phase.Q.To(c.Q)))[0];
            return Frequencies(rate).Select(f =>
            {
                var s = new Complex(0, Math.Tan(Math.PI * f / rate) / Math.Tan(Math.PI * c.freq / rate));
                return Spectrum.ResponseAt(impulse, f, rate) / (c.Order == 1 ? (1 - s) / (1 + s) : ((s * s) - (s / c.Q) + 1) / ((s * s) + (s / c.Q) + 1));
            });
        });

    private static ParallelQuery<Complex> Turns(int rate) => new[] { -150.0, -90, -10, 45, 90 }.AsParallel().SelectMany(degrees =>
    {
        var processor = Phase.Definition.Create(Phase.Definition.With(Phase.Turn.To(degrees)).Settings, new ProcessorContext(new AudioFormat(rate, 1), 1));
        var impulse = Run.Through(processor, [[1.0]], 1, extraFrames: (int)(processor.LatencyFrames + processor.TailFrames))[0];
        var from = processor.LatencyFrames - RotationDesign.Centre(rate);
        return Frequencies(rate).Select(f => Spectrum.ResponseAt(impulse.AsSpan(from), f, rate)
            * Complex.FromPolarCoordinates(1, (2 * Math.PI * f / rate * RotationDesign.Centre(rate)) - (degrees * Math.PI / 180)));
    });

    private static double Changed()
    {
        var input = Signals.Noise(20000);
        var turned = WholeSignal.Through([input], 48000, Phase.Definition.With(Phase.Turn.To(180)))[0];
        var untouched = WholeSignal.Through([input], 48000, Phase.Definition.With())[0];
        return input.Where((x, n) => turned[n] != -x || untouched[n] != x).Count();
    }

    private static double BeforeDb(double freqHz, double milliseconds)
    {
        const int At = 24000;
        double[] hit = [.. Enumerable.Range(0, 48000).Select(n => n < At ? 0 : Math.Exp((At - n) / 4800.0) * Math.Sin(2 * Math.PI * freqHz * (n - At) / 48000))];
        var turned = WholeSignal.Through([[.. hit, .. new double[24000]]], 48000, Phase.Definition.With(Phase.Turn.To(90)))[0];
        return Spectrum.Decibels(turned[..(At - (int)(48 * milliseconds))].Max(Math.Abs) / turned.Max(Math.Abs));
    }

    private static IEnumerable<double> Frequencies(int rate) => Response.AudibleFrequencies(40, 0.45 * rate);
}
