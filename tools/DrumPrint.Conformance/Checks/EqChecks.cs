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
        Vicanek, as two general libraries give it), worst over 20 Hz to 20 kHz for the same setting; ours has matched poles and a
        fitted correction, and follows the phase as well. A blend is the untouched sound and one band at equal level, less the same sum
        of the analog band, as a vector, in decibels of the larger of dry and band; corners are 50 Hz to 12 kHz, gains ±3 to ±12 dB.
        The latency is 20 frames below 48 kHz, 12 from there, 8 from 88.2 kHz on, whatever the bands. The filters in keys of `compress`,
        `gate` and `duck` are plain ones without latency, true in level alone. With `"phase": "linear"` every level is that of the minimum form, and what is
        heard before a hit is told: down to 60 dB under the loudest moment of the ring.
        """;

    private const double Butterworth = 0.70710678118654752;
    private const string Cookbook = "Audio EQ Cookbook, analog H(s)";
    private const string Matched = "matched designs, from their formulas";

    private static readonly double[] Corners = [50, 100, 200, 500, 1000, 2000, 4000, 8000, 10000, 12000, 16000];
    private static readonly double[] Gains = [-12, -6, 3, 12];

    public static IEnumerable<Check> All() =>
    [
        .. Published("high shelf 10 kHz +6 dB", AnalogBand.HighShelf(10000, 6, Butterworth), s => Analog.HighShelf(s, 6, Butterworth), 0.070, 0.055, 0.006),
        .. Published("high shelf 10 kHz −12 dB", AnalogBand.HighShelf(10000, -12, Butterworth), s => Analog.HighShelf(s, -12, Butterworth), 0.158, 0.126, 0.011),
        .. Published("high shelf 16 kHz +6 dB", AnalogBand.HighShelf(16000, 6, Butterworth), s => Analog.HighShelf(s, 6, Butterworth), 0.195, 0.142, 0.027),
        .. Published("high shelf 16 kHz −12 dB", AnalogBand.HighShelf(16000, -12, Butterworth), s => Analog.HighShelf(s, -12, Butterworth), 0.370, 0.270, 0.052),
        .. Published("bell 10 kHz +6 dB, q 1", AnalogBand.Bell(10000, 6, 1), s => Analog.Bell(s, 6, 1), 0.486, 0.304, 0.012),
        .. Published("bell 12 kHz +12 dB, q 2", AnalogBand.Bell(12000, 12, 2), s => Analog.Bell(s, 12, 2), 0.611, 0.352, 0.011),
        .. Published("low-pass 10 kHz, q 0.707", AnalogBand.LowPass(10000, 2), s => Analog.LowPass(s, Butterworth), 1.52, 0.91, 0.02),
        .. Everywhere(44100),
        .. Everywhere(48000),
        .. Everywhere(96000),
        .. Everywhere(192000),
        .. new[] { 44100, 48000, 96000, 192000 }.SelectMany(Slopes),
        .. Phase(44100),
        .. Phase(48000),
        .. Phase(96000),
        .. EqBlends.All(),
        .. EqSides.All(),
        .. EqResonance.All(),
        .. EqLinear.All(),
        new Check("eq", "rounding noise at 20 Hz, 192 kHz, worst of high-pass, low-pass, bell and shelf, against 32-digit arithmetic", "own bar", Bar.AtMost(FilterTolerance.NoiseDb, "dBFS", 0), () => NoiseDb(192000)),
        new Check("eq", "the same at 384 kHz", "own bar", Bar.AtMost(FilterTolerance.NoiseDb, "dBFS", 0), () => NoiseDb(384000)),
        new Check("eq", "a boost and the same cut in one `eq`, largest difference left, 9 kHz, 48 kHz", "Audio EQ Cookbook, A and 1/A", Bar.AtMost(-240, "dB", 0, floor: -280), Undone),
    ];

    private static IEnumerable<Check> Published(string setting, AnalogBand band, Func<Complex, Complex> analog, params double[] theirs)
    {
        foreach (var (rate, limit) in new[] { 44100, 48000, 96000 }.Zip(theirs))
        {
            yield return new Check(
                "eq",
                $"{setting} at {Khz(rate)}, worst distance from analog",
                Matched,
                Bar.AtMost(limit, "dB", 4) with { Expected = $"one order: {limit.ToString("0.000", CultureInfo.InvariantCulture)} dB", Tolerance = "no worse" },
                () => Response.WorstDb(CorrectedDesign.Of([band], rate), analog, band.FreqHz, rate));
        }
    }

    private static IEnumerable<Check> Everywhere(int rate)
    {
        yield return Grid(rate, "bells, q 0.3 to 8", [0.3, 0.5, 1, 2, 4, 8], (f, g, q) => (AnalogBand.Bell(f, g, q), s => Analog.Bell(s, g, q)));
        yield return Grid(rate, "low shelves, q 0.3 to 8", [0.3, 0.5, Butterworth, 1, 2, 4, 8], (f, g, q) => (AnalogBand.LowShelf(f, g, q), s => Analog.LowShelf(s, g, q)));
        yield return Grid(rate, "high shelves, q 0.3 to 8", [0.3, 0.5, Butterworth, 1, 2, 4, 8], (f, g, q) => (AnalogBand.HighShelf(f, g, q), s => Analog.HighShelf(s, g, q)));
        yield return Grid(rate, "shelves and tilts of 6 dB per octave", [1], (f, g, _) => (AnalogBand.FirstOrderHighShelf(f, g), s => Analog.FirstOrderHighShelf(s, g)));
    }

    private static Check Grid(int rate, string what, double[] qs, Func<double, double, double, (AnalogBand Band, Func<Complex, Complex> Analog)> design) => new(
        "eq",
        $"{what}, ±12 dB, 50 Hz to 16 kHz, at {Khz(rate)}, worst distance from analog",
        Cookbook,
        Bar.AtMost(0.1, "dB", 3),
        () => Corners.SelectMany(f => Gains.SelectMany(g => qs.Select(q => (f, g, q)))).AsParallel().Max(c =>
        {
            var (band, analog) = design(c.f, c.g, c.q);
            return Response.WorstDb(CorrectedDesign.Of([band], rate), analog, c.f, rate);
        }));

    private static IEnumerable<Check> Slopes(int rate)
    {
        yield return new Check(
            "eq",
            $"Butterworth corners, orders 1 to 8, at {Khz(rate)}: level, the one furthest off",
            "Butterworth: 10 log ½",
            Bar.Near(-3.01, 0.01, "dB", 3),
            () => Orders().Select(o => Response.DbAt(CorrectedDesign.Of([o.Band], rate), o.Band.FreqHz, rate)).MaxBy(db => Math.Abs(db + 3.0103)));
        yield return new Check(
            "eq",
            $"Butterworth slopes, orders 1 to 8, at {Khz(rate)}, worst distance down to −150 dB",
            "Butterworth: −10 log(1 + Ω²ⁿ)",
            Bar.AtMost(0.1, "dB", 3),
            () => Orders().AsParallel().Max(o =>
            {
                var design = CorrectedDesign.Of([o.Band], rate);
                return Response.AudibleFrequencies(60).Select(f => (Ours: Response.DbAt(design, f, rate), Theirs: o.Theirs(f / o.Band.FreqHz, o.Order)))
                    .Where(p => p.Theirs > -150).Max(p => Math.Abs(p.Ours - p.Theirs));
            }));
    }

    private static IEnumerable<(AnalogBand Band, int Order, Func<double, int, double> Theirs)> Orders() =>
        from corner in new double[] { 20, 35, 1000, 10000, 16000 }
        from order in Enumerable.Range(1, 8)
        from isLow in new[] { false, true }
        select isLow
            ? (AnalogBand.LowPass(corner, order), order, (Func<double, int, double>)Analog.ButterworthLowPassDb)
            : (AnalogBand.HighPass(corner, order), order, Analog.ButterworthHighPassDb);

    private static IEnumerable<Check> Phase(int rate)
    {
        yield return Degrees("high shelf 10 kHz +6 dB", AnalogBand.HighShelf(10000, 6, Butterworth), s => Analog.HighShelf(s, 6, Butterworth));
        yield return Degrees("bell 1 kHz +6 dB, q 1", AnalogBand.Bell(1000, 6, 1), s => Analog.Bell(s, 6, 1));
        yield return Degrees("low-pass 10 kHz, q 0.707", AnalogBand.LowPass(10000, 2), s => Analog.LowPass(s, Butterworth));

        Check Degrees(string setting, AnalogBand band, Func<Complex, Complex> analog) => new(
            "eq",
            $"{setting} at {Khz(rate)}: phase, worst distance from analog",
            Cookbook,
            Bar.AtMost(0.6, "°", 2),
            () => Response.WorstDegrees(CorrectedDesign.Of([band], rate), analog, band.FreqHz, rate));
    }

    private static double NoiseDb(int rate)
    {
        var input = Signals.Sine(rate / 4, 55, 0.5, sampleRate: rate).Zip(Signals.Noise(rate / 4, level: 0.5), (a, b) => a + b).ToArray();
        return new[]
        {
            AnalogBand.HighPass(20, 8),
            AnalogBand.LowPass(20, 8),
            AnalogBand.Bell(20, 12, 8),
            AnalogBand.LowShelf(20, -12, 0.7071),
        }.Max(band =>
        {
            BiquadCoefficients[] sections = [.. CorrectedDesign.Of([band], rate).Sections];
            var output = (double[])input.Clone();
            new FilterCascade(sections).Process(output);
            return Spectrum.Decibels(ExactFilter.LargestError(sections, input, output));
        });
    }

    private static double Undone()
    {
        var design = CorrectedDesign.Of([AnalogBand.Bell(9000, 9, 1), AnalogBand.Bell(9000, -9, 1)], 48000);
        var input = Signals.Noise(4000);
        var output = (double[])input.Clone();
        new FilterCascade(design.Sections).Process(output);
        new TapFilter(design.Taps).Process(output);
        return Spectrum.Decibels(input[..^design.LatencyFrames].Zip(output[design.LatencyFrames..], (a, b) => Math.Abs(a - b)).Max());
    }

    internal static string Khz(int rate) => $"{(rate / 1000.0).ToString("0.#", CultureInfo.InvariantCulture)} kHz";
}
