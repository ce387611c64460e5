using System.Globalization;
using System.Numerics;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>Digital filters against their analog prototypes.</summary>
internal static class EqChecks
{
    public const string Note = """
        The prototypes are those of the Audio EQ Cookbook (W3C note). "One order" is the closed-form matched design (after
        Vicanek, as two general libraries give it), worst over 20 Hz to 20 kHz for the same setting; ours adds a section fitted by
        least squares. Phase is not matched; it is told because a blend with the untouched sound hears it.
        """;

    private const double Butterworth = 0.70710678118654752;
    private const string Cookbook = "Audio EQ Cookbook, analog H(s)";
    private const string Matched = "matched designs, from their formulas";

    private static readonly double[] Corners = [50, 100, 200, 500, 1000, 2000, 4000, 8000, 10000, 12000, 16000];
    private static readonly double[] Gains = [-12, -6, 3, 12];

    public static IEnumerable<Check> All() =>
    [
        .. Published("high shelf 10 kHz +6 dB", (rate, f) => f(BiquadDesign.HighShelf(10000, 6, Butterworth, rate), s => Analog.HighShelf(s, 6, Butterworth), 10000), 0.070, 0.055, 0.006),
        .. Published("high shelf 10 kHz −12 dB", (rate, f) => f(BiquadDesign.HighShelf(10000, -12, Butterworth, rate), s => Analog.HighShelf(s, -12, Butterworth), 10000), 0.158, 0.126, 0.011),
        .. Published("high shelf 16 kHz +6 dB", (rate, f) => f(BiquadDesign.HighShelf(16000, 6, Butterworth, rate), s => Analog.HighShelf(s, 6, Butterworth), 16000), 0.195, 0.142, 0.027),
        .. Published("high shelf 16 kHz −12 dB", (rate, f) => f(BiquadDesign.HighShelf(16000, -12, Butterworth, rate), s => Analog.HighShelf(s, -12, Butterworth), 16000), 0.370, 0.270, 0.052),
        .. Published("bell 10 kHz +6 dB, q 1", (rate, f) => f(BiquadDesign.Bell(10000, 6, 1, rate), s => Analog.Bell(s, 6, 1), 10000), 0.486, 0.304, 0.012),
        .. Published("bell 12 kHz +12 dB, q 2", (rate, f) => f(BiquadDesign.Bell(12000, 12, 2, rate), s => Analog.Bell(s, 12, 2), 12000), 0.611, 0.352, 0.011),
        .. Published("low-pass 10 kHz, q 0.707", (rate, f) => f(BiquadDesign.LowPass(10000, 2, rate), s => Analog.LowPass(s, Butterworth), 10000), 1.52, 0.91, 0.02),
        .. Everywhere(44100),
        .. Everywhere(48000),
        .. Everywhere(96000),
        .. Everywhere(192000),
        .. new[] { 44100, 48000, 96000, 192000 }.SelectMany(Slopes),
        .. Phase(44100),
        .. Phase(48000),
        .. Phase(96000),
        new Check("eq", "rounding noise at 20 Hz, 192 kHz, worst of high-pass, low-pass, bell and shelf, against 32-digit arithmetic", "own bar", Bar.AtMost(FilterTolerance.NoiseDb, "dBFS", 0), () => NoiseDb(192000)),
        new Check("eq", "the same at 384 kHz", "own bar", Bar.AtMost(FilterTolerance.NoiseDb, "dBFS", 0), () => NoiseDb(384000)),
        new Check("eq", "a boost and the same cut, largest difference left, 9 kHz, 48 kHz", "Audio EQ Cookbook, A and 1/A", Bar.AtMost(-240, "dB", 0, floor: -280), Undone),
    ];

    private static IEnumerable<Check> Published(string setting, Func<int, Func<BiquadCoefficients[], Func<Complex, Complex>, double, double>, double> measure, params double[] theirs)
    {
        foreach (var (rate, limit) in new[] { 44100, 48000, 96000 }.Zip(theirs))
        {
            yield return new Check(
                "eq",
                $"{setting} at {Khz(rate)}, worst distance from analog",
                Matched,
                Bar.AtMost(limit, "dB", 4) with { Expected = $"one order: {limit.ToString("0.000", CultureInfo.InvariantCulture)} dB", Tolerance = "no worse" },
                () => measure(rate, (sections, analog, corner) => Response.WorstDb(sections, analog, corner, rate)));
        }
    }

    private static IEnumerable<Check> Everywhere(int rate)
    {
        yield return Grid(rate, "bells, q 0.3 to 8", [0.3, 0.5, 1, 2, 4, 8], (f, g, q) => (BiquadDesign.Bell(f, g, q, rate), s => Analog.Bell(s, g, q)));
        yield return Grid(rate, "low shelves, q 0.3 to 8", [0.3, 0.5, Butterworth, 1, 2, 4, 8], (f, g, q) => (BiquadDesign.LowShelf(f, g, q, rate), s => Analog.LowShelf(s, g, q)));
        yield return Grid(rate, "high shelves, q 0.3 to 8", [0.3, 0.5, Butterworth, 1, 2, 4, 8], (f, g, q) => (BiquadDesign.HighShelf(f, g, q, rate), s => Analog.HighShelf(s, g, q)));
        yield return Grid(rate, "shelves and tilts of 6 dB per octave", [1], (f, g, _) => (BiquadDesign.FirstOrderHighShelf(f, g, rate), s => Analog.FirstOrderHighShelf(s, g)));
    }

    private static Check Grid(int rate, string what, double[] qs, Func<double, double, double, (BiquadCoefficients[] Sections, Func<Complex, Complex> Analog)> design) => new(
        "eq",
        $"{what}, ±12 dB, 50 Hz to 16 kHz, at {Khz(rate)}, worst distance from analog",
        Cookbook,
        Bar.AtMost(0.1, "dB", 3),
        () => Corners.SelectMany(f => Gains.SelectMany(g => qs.Select(q => (f, g, q)))).AsParallel().Max(c =>
        {
            var (sections, analog) = design(c.f, c.g, c.q);
            return Response.WorstDb(sections, analog, c.f, rate);
        }));

    private static IEnumerable<Check> Slopes(int rate)
    {
        yield return new Check(
            "eq",
            $"Butterworth corners, orders 1 to 8, at {Khz(rate)}: level, the one furthest off",
            "Butterworth: 10 log ½",
            Bar.Near(-3.01, 0.01, "dB", 3),
            () => Orders().Select(o => Response.DbAt(o.Make(o.Corner, o.Order, rate), o.Corner, rate)).MaxBy(db => Math.Abs(db + 3.0103)));
        yield return new Check(
            "eq",
            $"Butterworth slopes, orders 1 to 8, at {Khz(rate)}, worst distance for each order down to −150 dB",
            "Butterworth: −10 log(1 + Ω²ⁿ)",
            Bar.AtMost(0.1, "dB", 3),
            () => Orders().AsParallel().Max(o =>
            {
                var sections = o.Make(o.Corner, o.Order, rate);
                return Response.AudibleFrequencies(60).Select(f => (Ours: Response.DbAt(sections, f, rate), Theirs: o.Theirs(f / o.Corner, o.Order)))
                    .Where(p => p.Theirs > -150).Max(p => Math.Abs(p.Ours - p.Theirs)) / o.Order;
            }));
    }

    private static IEnumerable<(double Corner, int Order, Func<double, int, int, BiquadCoefficients[]> Make, Func<double, int, double> Theirs)> Orders() =>
        from corner in new double[] { 20, 35, 1000, 10000, 16000 }
        from order in Enumerable.Range(1, 8)
        from isLow in new[] { false, true }
        select (corner, order, isLow ? BiquadDesign.LowPass : (Func<double, int, int, BiquadCoefficients[]>)BiquadDesign.HighPass, isLow ? Analog.ButterworthLowPassDb : (Func<double, int, double>)Analog.ButterworthHighPassDb);

    private static IEnumerable<Check> Phase(int rate)
    {
        yield return Degrees("high shelf 10 kHz +6 dB", () => Response.WorstDegrees(BiquadDesign.HighShelf(10000, 6, Butterworth, rate), s => Analog.HighShelf(s, 6, Butterworth), 10000, rate));
        yield return Degrees("bell 1 kHz +6 dB, q 1", () => Response.WorstDegrees(BiquadDesign.Bell(1000, 6, 1, rate), s => Analog.Bell(s, 6, 1), 1000, rate));
        yield return Degrees("low-pass 10 kHz, q 0.707", () => Response.WorstDegrees(BiquadDesign.LowPass(10000, 2, rate), s => Analog.LowPass(s, Butterworth), 10000, rate));

        Check Degrees(string setting, Func<double> measure) => new("eq", $"{setting} at {Khz(rate)}: phase, worst distance from analog", Cookbook, Bar.Told("°", 1), measure);
    }

    private static double NoiseDb(int rate)
    {
        var input = Signals.Sine(rate / 4, 55, 0.5, sampleRate: rate).Zip(Signals.Noise(rate / 4, level: 0.5), (a, b) => a + b).ToArray();
        return new[]
        {
            BiquadDesign.HighPass(20, 8, rate),
            BiquadDesign.LowPass(20, 8, rate),
            BiquadDesign.Bell(20, 12, 8, rate),
            BiquadDesign.LowShelf(20, -12, 0.7071, rate),
        }.Max(sections =>
        {
            var output = (double[])input.Clone();
            new FilterCascade(sections).Process(output);
            return Spectrum.Decibels(ExactFilter.LargestError(sections, input, output));
        });
    }

    private static double Undone()
    {
        var input = Signals.Noise(4000);
        var output = (double[])input.Clone();
        new FilterCascade(BiquadDesign.Bell(9000, 9, 1, 48000)).Process(output);
        new FilterCascade(BiquadDesign.Bell(9000, -9, 1, 48000)).Process(output);
        return Spectrum.Decibels(input.Zip(output, (a, b) => Math.Abs(a - b)).Max());
    }

    private static string Khz(int rate) => $"{(rate / 1000.0).ToString("0.#", CultureInfo.InvariantCulture)} kHz";
}
