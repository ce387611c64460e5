using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>The curves, and the filters that raise and lower the rate around them.</summary>
internal static class SaturateChecks
{
    public const string Note = "Folded products: a 5 kHz sine driven to 3 % third harmonic; the largest line that is no harmonic, against the sine. The bar is set for the default, 8 times; the other factors are told. Driven sweeps: a full-scale sine 100 Hz below each kilohertz, so that what folds does not fall on harmonics. `saturate` is no ceiling: how far a hit passes full scale is told.";

    private const string Adaa = "own bar; antiderivatives after Parker, Zavalishin and Le Bivic, DAFx-16, third order";

    internal const string AllRates = "44.1 to 192 kHz";
    internal static readonly int[] Rates = [44100, 48000, 88200, 96000, 176400, 192000];

    public static IEnumerable<Check> All() =>
    [
        .. from shape in new[] { "soft", "cubic", "hard" }
           from c in new[] { (2, 48000), (4, 48000), (8, 44100), (8, 48000), (16, 48000) }
           select new Check("saturate", $"{shape}, {c.Item1} times at {c.Item2 / 1000.0} kHz: worst folded product", Adaa, c.Item1 == 8 ? Bar.AtMost(SaturationTolerance.FoldedDb, "dBc", 0, floor: -180) : Bar.Told("dBc", 0, floor: -180), () => FoldedDb(shape, c.Item1, c.Item2)),
        .. from shape in new[] { "soft", "cubic", "hard" }
           from c in new[] { (24.0, 1, 19), (24, 20, 20), (36, 1, 20) }
           from rate in new[] { 44100, 48000 }
           select new Check("saturate", $"{shape}, driven {c.Item1} dB at {rate / 1000.0} kHz: worst folded product {Range(c.Item2, c.Item3)}", Adaa, Bar.AtMost(c is (24, 1, 19) ? SaturationTolerance.DrivenFoldedDb : SaturationTolerance.FarDrivenFoldedDb, "dBc", 0), () => Harmonics.FoldedDb(Saturate.Definition, Of(shape, (Saturate.Drive, c.Item1)), Harmonics.Sweep(c.Item2, c.Item3), 0, rate)),
        .. new[] { "soft", "cubic", "hard" }.Select(shape => new Check("saturate", $"{shape}, driven 24 dB: bright noise at 8 times against 16 times, to 16 kHz", "own figure", Bar.Told("dB", 0, floor: -100), () => Harmonics.NoiseDb(Saturate.Definition, factor => Of(shape, (Saturate.Drive, 24.0), (Saturate.Factor, factor)), 0))),
        .. new[] { ("hard", 0.0), ("soft", 0), ("soft", 60) }.Select(c => new Check("saturate", $"{c.Item1}, bias {c.Item2} %, driven 24 dB: highest peak of a full-scale hit", "no ceiling: told", Bar.Told("dBFS", 1), () => Spectrum.Decibels(Run.Through(Saturate.Definition, Of(c.Item1, (Saturate.Drive, 24.0), (Saturate.Bias, c.Item2)), [Signals.Hits(48000, 12000, 2000, level: 1)])[0].Max(Math.Abs)))),
        .. new[] { "soft", "cubic", "hard" }.Select(shape => new Check("saturate", $"{shape}, no bias: largest even harmonic at +2 dBFS", "odd curve: none", Bar.AtMost(-140, "dBc", 0, floor: -200), () => Evens(shape))),
        .. new[] { "soft", "cubic" }.Select(shape => new Check("saturate", $"{shape}: rise of the third harmonic's ratio for 6.02 dB more of a small signal", "Taylor series: x³", Bar.Near(12.04, 0.15, "dB", 2), () => Ratio(shape, -20) - Ratio(shape, -26.0206))),
        new("saturate", "cubic: third harmonic at −1 dBFS against a³/27", "(a sin)³ = a³(3 sin − sin 3)/4", Bar.AtMost(0.01, "dB", 4), () => Math.Abs(Spectrum.Decibels(Harmonics.Of(Saturate.Definition, Of("cubic"), 1000, -1)[2] / (Math.Pow(10, -3.0 / 20) / 27)))),
        .. new[] { "soft", "cubic", "hard" }.Select(shape => new Check("saturate", $"{shape}, bias 80 %, drive 12 dB: steady level left of a full-scale 100 Hz sine", "own bar", Bar.AtMost(-120, "dBFS", 0, floor: -180), () => SteadyDb(shape))),
        .. new[] { 2, 4, 8, 16 }.Select(factor => new Check("saturate", $"oversampling {factor} times: ripple to 20 kHz, {AllRates}, worst", "own bar", Bar.AtMost(SaturationTolerance.PassBandDb, "dB", 4), () => Rates.Max(rate => RippleDb(factor, rate)))),
        .. new[] { (0, "first, 2 times"), (1, "second, 4 times"), (2, "third, 8 times"), (3, "fourth, 16 times") }.Select(s => new Check("saturate", $"oversampling filter on the way up, {s.Item2}: images of the flat band, {AllRates}, worst", "own bar", Bar.AtMost(s.Item1 == 0 ? SaturationTolerance.StopBandDb : SaturationTolerance.LaterStopBandDb, "dB", 1), () => Rates.Max(rate => StopDb(BandFilter.For(rate).Up(s.Item1), FlatBand(rate) / (2 << s.Item1))))),
        .. new[] { (3, "from 16 times"), (2, "from 8 times"), (1, "from 4 times") }.Select(s => new Check("saturate", $"oversampling filter on the way down, {s.Item2}: what would fold below half the frame rate, worst", "own bar", Bar.AtMost(SaturationTolerance.LaterStopBandDb, "dB", 1), () => StopDb(BandFilter.Down(s.Item1), 0.5 / (2 << s.Item1)))),
        new("saturate", $"oversampling, last filter on the way down: stop band from half the frame rate up, {AllRates}, worst", "own bar", Bar.AtMost(SaturationTolerance.StopBandDb, "dB", 1), () => Rates.Max(LowPassStopDb)),
    ];

    internal static string Range(int fromKhz, int toKhz) => fromKhz == toKhz ? $"of {fromKhz - 0.1:0.0} kHz" : $"from {fromKhz - 0.1:0.0} to {toKhz - 0.1:0.0} kHz";

    private static Settings Of(string shape, params (Parameter, object)[] more) => Settings.Of(Saturate.Definition.Parameters, [(Saturate.Shape, shape), .. more]);

    private static double FoldedDb(string shape, int factor, int rate)
    {
        var drive = Harmonics.Where(-20, 20, 0.03, d =>
        {
            var h = Harmonics.Of(Saturate.Definition, Of(shape, (Saturate.Drive, d)), 5000, 0, 480);
            return h[2] / h[0];
        });
        return Harmonics.FoldedDb(Saturate.Definition, Of(shape, (Saturate.Drive, drive), (Saturate.Factor, (double)factor)), 5000, 0, rate);
    }

    private static double Evens(string shape)
    {
        var h = Harmonics.Of(Saturate.Definition, Of(shape), 1000, 2);
        return Spectrum.Decibels(Math.Max(h[1], Math.Max(h[3], h[5])) / h[0]);
    }

    private static double Ratio(string shape, double levelDb)
    {
        var h = Harmonics.Of(Saturate.Definition, Of(shape), 1000, levelDb);
        return Spectrum.Decibels(h[2] / h[0]);
    }

    private static double SteadyDb(string shape) => Spectrum.Decibels(Math.Abs(
        Run.Through(Saturate.Definition, Of(shape, (Saturate.Bias, 80.0), (Saturate.Drive, 12.0)), [Signals.Sine(6 * 48000, 100)])[0].AsSpan(5 * 48000).ToArray().Average()));

    // The hard curve does nothing below full scale, so what is left is the filters.
    private static double RippleDb(int factor, int rate)
    {
        var response = Run.Through(Saturate.Definition, Of("hard", (Saturate.Factor, (double)factor)), [Signals.Impulse(2000, 50, 0.5)], sampleRate: rate)[0];
        return Enumerable.Range(1, 200).Max(i => Math.Abs(Spectrum.Decibels(2 * Spectrum.ResponseAt(response, i * 100, rate).Magnitude)));
    }

    private static double FlatBand(int rate) => Math.Min(20 / 44.1, Math.Max(20000.0 / rate, 0.4));

    internal static double StopDb(double[] taps, double edge) =>
        Enumerable.Range(0, 501).Max(i => Spectrum.Decibels(Spectrum.ResponseAt(taps, 0.5 - edge + (edge * i / 500), 1).Magnitude));

    // Wherever its middle is, flat and with the droop of the curve's stage at the fewest times.
    private static double LowPassStopDb(int rate)
    {
        var filters = BandFilter.For(rate);
        return Enumerable.Range(0, 4).Max(quarter => new Func<double, double>[] { _ => 1, f => 1 / Math.Cos(Math.PI * f / 2) }.Max(gain =>
        {
            var taps = filters.LowPass(filters.LowPassReach(true) + (quarter / 4.0), gain, true);
            return Enumerable.Range(0, 1001).Max(i => Spectrum.Decibels(Spectrum.ResponseAt(taps, 0.25 + (0.25 * i / 1000), 1).Magnitude));
        }));
    }
}
