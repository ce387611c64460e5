using System.Numerics;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>What a band gives beside the untouched sound, and how it moves as its frequency is moved.</summary>
internal static class EqBlends
{
    private const double Butterworth = 0.70710678118654752;
    private const string Vectors = "analog H(s), as a vector";
    private const double To15KilohertzDb = -38;
    private const double To20KilohertzDb = -32;

    private static readonly double[] Corners = [50, 100, 200, 500, 1000, 2000, 4000, 6000, 8000, 9250, 9500, 11000, 12000];
    private static readonly double[] Gains = [-12, -6, -3, 3, 6, 12];
    private static readonly double[] Qs = [0.3, 0.5, Butterworth, 1, 2, 4, 8];

    private static readonly (string Name, Func<double, IEnumerable<Band>> At)[] Kinds =
    [
        ("low-passes of 6 to 48 dB per octave", f => Enumerable.Range(1, 8).Select(n => LowPass(f, n))),
        ("high-passes of 6 to 48 dB per octave", f => Enumerable.Range(1, 8).Select(n => HighPass(f, n))),
        ("bells, q 0.3 to 8", f => Gains.SelectMany(g => Qs.Select(q => Bell(f, g, q)))),
        ("low shelves, q 0.3 to 8", f => Gains.SelectMany(g => Qs.Select(q => new Band(AnalogBand.LowShelf(f, g, q), s => Analog.LowShelf(s, g, q))))),
        ("high shelves, q 0.3 to 8", f => Gains.SelectMany(g => Qs.Select(q => HighShelf(f, g, q)))),
        ("shelves of 6 dB per octave and tilts", f => Gains.SelectMany<double, Band>(g =>
        [
            FirstOrder(f, g),
            new(AnalogBand.FirstOrderLowShelf(f, g), s => Math.Pow(10, g / 20) * Analog.FirstOrderHighShelf(s, -g)),
            new(AnalogBand.Tilt(f, g), s => Math.Pow(10, -g / 40) * Analog.FirstOrderHighShelf(s, g)),
        ])),
    ];

    public static IEnumerable<Check> All() =>
    [
        .. new[] { 44100, 48000 }.SelectMany(rate => Kinds.SelectMany(kind => new[] { (15, To15KilohertzDb), (20, To20KilohertzDb) }.Select(top => new Check(
            "eq",
            $"blend, {kind.Name}, at {EqChecks.Khz(rate)}: worst up to {top.Item1} kHz",
            Vectors,
            Bar.AtMost(top.Item2, "dB", 1),
            () => Corners.SelectMany(kind.At).AsParallel().Max(b => b.BlendDb(1000 * top.Item1, rate)))))),
        new("eq", "blend, all of these, at 96 kHz: worst up to 20 kHz", Vectors, Bar.AtMost(-80, "dB", 1), () => Kinds.SelectMany(k => Corners.SelectMany(k.At)).AsParallel().Max(b => b.BlendDb(20000, 96000))),
        .. new[] { 44100, 48000 }.Select(rate => new Check("eq", $"blend, 400 equalisers of one to five bands at random, at {EqChecks.Khz(rate)}: worst up to 20 kHz", Vectors, Bar.AtMost(To20KilohertzDb, "dB", 1), () => SeveralDb(rate))),
        .. new[] { 44100, 48000 }.SelectMany(Moving),
        .. new[] { (8000.0, "12 dB per octave low-pass, 8 kHz"), (9500.0, "the same, 9.5 kHz") }.Select(c => new Check(
            "eq", $"through the processor at 48 kHz: dry and {c.Item2}, at 10.9 kHz, against the analog sum", Vectors, Bar.AtMost(0.002, "dB", 4), () => ProcessedDb(c.Item1))),
        new("eq", "a boost in one `eq` and the same cut in the next, 9 kHz, 48 kHz: response left, worst up to 20 kHz", "Audio EQ Cookbook, A and 1/A", Bar.AtMost(0.03, "dB", 4), UndoneApart),
    ];

    private static Band LowPass(double f, int order) => new(AnalogBand.LowPass(f, order), s => Analog.ButterworthLowPass(s, order));

    private static Band HighPass(double f, int order) => new(AnalogBand.HighPass(f, order), s => Analog.ButterworthHighPass(s, order));

    private static Band Bell(double f, double g, double q) => new(AnalogBand.Bell(f, g, q), s => Analog.Bell(s, g, q));

    private static Band HighShelf(double f, double g, double q) => new(AnalogBand.HighShelf(f, g, q), s => Analog.HighShelf(s, g, q));

    private static Band FirstOrder(double f, double g) => new(AnalogBand.FirstOrderHighShelf(f, g), s => Analog.FirstOrderHighShelf(s, g));

    private static double SeveralDb(int rate)
    {
        var numbers = Signals.Noise(400 * 5 * 5, 31).Select(x => (x + 1) / 2).ToArray();
        return Enumerable.Range(0, 400).AsParallel().Max(i =>
        {
            var bands = Enumerable.Range(0, 1 + (i % 5)).Select(b => AtRandom(numbers.AsSpan(((i * 5) + b) * 5, 5))).ToArray();
            return Response.WorstBlendDb(CorrectedDesign.Of(bands.Select(b => b.Ours), rate), f => bands.Aggregate(Complex.One, (h, b) => h * b.At(f)), 20000, rate);
        });
    }

    private static Band AtRandom(ReadOnlySpan<double> number)
    {
        var (f, g, q, order) = (50 * Math.Pow(240, number[0]), (24 * number[1]) - 12, 0.3 * Math.Pow(10, number[2]), 1 + (int)(7.99 * number[3]));
        return (int)(4.99 * number[4]) switch
        {
            0 => LowPass(f, order),
            1 => HighPass(f, order),
            2 => Bell(f, g, q),
            3 => HighShelf(f, g, q),
            _ => FirstOrder(f, g),
        };
    }

    // A hundred steps to the octave, upwards; a design that changes its mind between two of them would show.
    private static IEnumerable<Check> Moving(int rate)
    {
        (string Name, Func<double, Band> At)[] kinds =
        [
            ("low-pass, 6 dB per octave", f => LowPass(f, 1)),
            ("low-pass, 12 dB per octave", f => LowPass(f, 2)),
            ("low-pass, 48 dB per octave", f => LowPass(f, 8)),
            ("high-pass, 24 dB per octave", f => HighPass(f, 4)),
            ("bell, +12 dB, q 2", f => Bell(f, 12, 2)),
            ("high shelf, −12 dB", f => HighShelf(f, -12, Butterworth)),
        ];
        foreach (var (name, at) in kinds)
        {
            yield return new Check(
                "eq",
                $"{name} moved from 1 to 12 kHz in steps of 0.01 octaves at {EqChecks.Khz(rate)}: largest step of the response that the analog one does not take, up to 20 kHz",
                "own bar: nothing jumps",
                Bar.AtMost(-76, "dB", 1),
                () => Steps(at, rate, (b, design, f) => (Response.At(design, f, rate) - b.At(f)) / Math.Max(1, b.At(f).Magnitude)).Max(s => Spectrum.Decibels(s.Magnitude)));
            yield return new Check(
                "eq",
                $"{name}, moved as well, at {EqChecks.Khz(rate)}: largest step of the delay that the analog one does not take, up to 15 kHz, where it is heard above −40 dB",
                "own bar: nothing jumps",
                Bar.AtMost(0.0004, "frames", 5),
                () => Steps(at, rate, (b, design, f) => f > 15000 || b.At(f).Magnitude < 0.01 ? double.NaN : Delay(x => Response.At(design, x, rate) / b.At(x), f, rate)).Where(s => !double.IsNaN(s.Real)).Max(s => Math.Abs(s.Real)));
        }
    }

    private static IEnumerable<Complex> Steps(Func<double, Band> at, int rate, Func<Band, CorrectedDesign, double, Complex> measure)
    {
        var frequencies = Enumerable.Range(1, 40).Select(i => 500.0 * i).ToArray();
        Complex[]? last = null;
        for (var step = 0; step <= 358; step++)
        {
            var band = at(1000 * Math.Pow(2, step / 100.0));
            var design = CorrectedDesign.Of([band.Ours], rate);
            var now = Array.ConvertAll(frequencies, f => measure(band, design, f));
            if (last is { } before)
            {
                foreach (var (a, b) in before.Zip(now))
                {
                    yield return b - a;
                }
            }

            last = now;
        }
    }

    private static double Delay(Func<double, Complex> response, double f, int rate)
    {
        const double Apart = 1; // Hz
        return -(response(f + Apart) / response(f)).Phase / (2 * Math.PI * Apart) * rate;
    }

    private static double ProcessedDb(double corner)
    {
        const double Where = 10900;
        var kind = Eq.Bands.Kinds.Single(k => k.Key == "low_pass");
        var band = new Item(kind, Settings.Of(kind.Parameters, (kind.Parameters[0], corner)));
        var processor = Eq.Definition.Create(Settings.Of(Eq.Definition.Parameters, (Eq.Bands, (IReadOnlyList<Item>)[band])), new ProcessorContext(new AudioFormat(48000, 1), 4000));
        var wet = Run.Through(processor, [Signals.Impulse(4000)], 1)[0];
        wet[processor.LatencyFrames] += 1;
        return Math.Abs(Spectrum.Decibels(Spectrum.ResponseAt(wet, Where, 48000).Magnitude / (1 + Analog.ButterworthLowPass(new Complex(0, Where / corner), 2)).Magnitude));
    }

    private static double UndoneApart()
    {
        var (boost, cut) = (CorrectedDesign.Of([AnalogBand.Bell(9000, 9, 1)], 48000), CorrectedDesign.Of([AnalogBand.Bell(9000, -9, 1)], 48000));
        return Response.AudibleFrequencies().Max(f => Math.Abs(Response.DbAt(boost, f, 48000) + Response.DbAt(cut, f, 48000)));
    }

    private sealed record Band(AnalogBand Ours, Func<Complex, Complex> Theirs)
    {
        public Complex At(double f) => Theirs(new Complex(0, f / Ours.FreqHz));

        public double BlendDb(double topHz, int rate) => Response.WorstBlendDb(CorrectedDesign.Of([Ours], rate), At, topHz, rate);
    }
}
