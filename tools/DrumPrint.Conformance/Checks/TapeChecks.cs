using System.Globalization;
using System.Numerics;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Saturation;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>The recorder: medium, equalisation, losses.</summary>
internal static class TapeChecks
{
    public const string Note = """
        The medium is the magnetic hysteresis of Jiles and Atherton in the closed form of Chowdhury, DAFx-19, with its constants **from memory**:
        Ms 350 kA/m, a 22 kA/m, α 1.6·10⁻³, k 27 kA/m, c 0.17, in the convention M = c·Man + (1 − c)·Mirr. Folded products as under `saturate`.
        The loops check the solver without bias. With the bias on, what the medium adds to a print beyond its curve is told by the phase of the first
        harmonic: a curve without memory would not move it with the level. It moves by hundredths of a degree at 200 Hz and by degrees in loud
        treble; below that, what is heard of this tape is its curve and its equalisation.
        """;

    private const string Hysteresis = "Jiles and Atherton; closed form of DAFx-19 (from memory), integrated by fourth-order Runge-Kutta";
    private const string Adaa = "own bar; antiderivatives after Parker, Zavalishin and Le Bivic, DAFx-16, second order";
    private const string Iasa = "IASA TC-04, 5.4.10, table 1";

    // Half of the last digit that the figures are given to, and a little.
    private const double FormulaDb = 0.0001;
    private static readonly (double Speed, string Curve)[] Machines = [(7.5, "iec"), (15, "iec"), (30, "iec"), (7.5, "nab"), (15, "nab")];

    public static IEnumerable<Check> All() =>
    [
        .. new[] { (2, 48000), (4, 48000), (8, 44100), (8, 48000), (16, 48000) }.Select(c => new Check("tape", $"{c.Item1} times at {c.Item2 / 1000.0} kHz: worst folded product", "own bar", c.Item1 == 8 ? Bar.AtMost(SaturationTolerance.FoldedDb, "dBc", 0) : Bar.Told("dBc", 0), () => FoldedDb(c.Item1, c.Item2))),
        .. from speed in new[] { 7.5, 15, 30 }
           from c in new[] { (-24.0, 0.0), (-12, 0), (-1, 0), (-24, 12), (-12, 12), (-6, 12), (-1, 12) }
           from rate in new[] { 44100, 48000 }
           from range in new[] { (1, 16), (17, 20) }
           select new Check("tape", $"{Inches(speed)}, {c.Item1.ToString(CultureInfo.InvariantCulture).Replace('-', '−')} dBFS, drive {c.Item2} dB at {rate / 1000.0} kHz: worst folded product {SaturateChecks.Range(range.Item1, range.Item2)}", Adaa, range.Item1 == 1 ? Bar.AtMost(c.Item2 > 0 ? SaturationTolerance.DrivenTapeFoldedDb : speed < 15 ? SaturationTolerance.SlowTapeFoldedDb : SaturationTolerance.TapeFoldedDb, "dBc", 0) : Bar.Told("dBc", 0), () => Harmonics.FoldedDb(Tape.Definition, Of((speed, "iec"), (Tape.Drive, c.Item2)), Harmonics.Sweep(range.Item1, range.Item2), c.Item1, rate)),
        .. new[] { 7.5, 15, 30 }.Select(speed => new Check("tape", $"{Inches(speed)}, drive 6 dB: bright full-scale noise at 8 times against 16 times, to 16 kHz", "own figure", Bar.Told("dB", 0, floor: -100), () => Harmonics.NoiseDb(Tape.Definition, factor => Of((speed, "iec"), (Tape.Drive, 6.0), (Tape.Factor, factor)), 0))),
        .. new[] { 200, 1000, 5000, 10000 }.Select(freq => new Check("tape", $"print at 15 in/s: phase of the first harmonic at {freq} Hz, −8 against −60 dBFS", "what the memory adds: told", Bar.Told("°", 2), () => PhaseDegrees(freq, -8) - PhaseDegrees(freq, -60))),
        .. new[] { 44100, 48000, 96000 }.Select(rate => new Check("tape", $"small signal at {rate / 1000.0} kHz, phase from 2.5 to 20 kHz against the latency taken out, largest", "own bar", Bar.AtMost(SaturationTolerance.TapePhaseDegrees, "°", 2), () => SmallPhaseDegrees(rate))),
        .. Machines.Select(m => new Check("tape", $"{Name(m)}: level of 3 % third harmonic at 1 kHz, less reference and headroom", "own bar: what the settings promise", Bar.Near(0, SaturationTolerance.CalibrationDb, "dB", 2), () => LevelFor3Percent(Of(m), 1000) + 10)),
        new("tape", "no bias: largest even harmonic at −10 dBFS, 1 kHz", "odd loop: none", Bar.AtMost(-120, "dBc", 0, floor: -160), Evens),
        new("tape", "rise of the third harmonic's ratio for 6 dB more, −40 to −22 dBFS, the step furthest off", "Taylor series: x³", Bar.Near(12, 0.4, "dB", 2), ThirdRise),
        .. new[] { 50e3, 100e3, 200e3 }.SelectMany(Loops),
        .. Machines.Select(m => new Check("tape", $"{Name(m)}: playback equalisation, 20 Hz to 20 kHz, 44.1, 48 and 96 kHz, worst distance", Iasa, Bar.AtMost(SaturationTolerance.TapeResponseDb, "dB", 3), () => EqualizationDb(m))),
        .. new[] { (10000, -1.4324, -6.1992, -0.1094), (20000, -2.8648, -10.6927, -0.4411) }.SelectMany(l => new[]
        {
            new Check("tape", $"spacing loss of 1 µm at {l.Item1 / 1000} kHz, 15 in/s", "computed from Wallace 1951: 54.575 dB·d/λ", Bar.Near(l.Item2, FormulaDb, "dB", 4), () => Spectrum.Decibels(HeadLoss.Spacing(1e-6, 15 * 0.0254 / l.Item1))),
            new Check("tape", $"thickness loss of 10 µm at {l.Item1 / 1000} kHz, 15 in/s", "computed from Wallace 1951 (formula from memory)", Bar.Near(l.Item3, FormulaDb, "dB", 4), () => Spectrum.Decibels(HeadLoss.Thickness(10e-6, 15 * 0.0254 / l.Item1))),
            new Check("tape", $"gap loss of 3 µm, effective 1.11 times, at {l.Item1 / 1000} kHz, 15 in/s", "computed from Eargle 1994: sin x/x", Bar.Near(l.Item4, FormulaDb, "dB", 4), () => Spectrum.Decibels(HeadLoss.Gap(1.11 * 3e-6, 15 * 0.0254 / l.Item1))),
        }),
        .. new[] { (7.5, -9.0), (15, -3), (30, -1) }.Select(t => new Check("tape", $"top loss of {t.Item2.ToString(CultureInfo.InvariantCulture).Replace('-', '−')} dB at {Inches(t.Item1)}, through the processor against the three formulas, 1 to 20 kHz, worst distance", "Wallace 1951; Eargle 1994", Bar.AtMost(SaturationTolerance.TapeResponseDb, "dB", 3), () => TopDb(t.Item1, t.Item2))),
        new("tape", $"last filter on the way down, which makes the losses of any speed and head and evens out the medium's lag, to 20 kHz, {SaturateChecks.AllRates}, worst distance from what is asked of it", "own bar", Bar.AtMost(SaturationTolerance.HeadLossDb, "dB", 3), () => OverHeads(LossesOffDb)),
        new("tape", $"the same filters: stop band from half the frame rate up, {SaturateChecks.AllRates}, worst", "own bar", Bar.AtMost(SaturationTolerance.StopBandDb, "dB", 1), () => OverHeads((taps, _, _) => SaturateChecks.StopDb(taps, 0.25))),
        new("tape", "steady level left after one-sided hits on a steady level, as a part of what went in", "own bar: no direct current", Bar.AtMost(-80, "dB", 0, floor: -120), SteadyDb),
    ];

    private static Settings Of((double Speed, string Curve) machine, params (Parameter, object)[] more) =>
        Settings.Of(Tape.Definition.Parameters, [(Tape.Speed, machine.Speed), (Tape.Curve, machine.Curve), .. more]);

    private static string Inches(double speed) => $"{speed.ToString(CultureInfo.InvariantCulture)} in/s";

    private static string Name((double Speed, string Curve) machine) => $"{Inches(machine.Speed)} {machine.Curve}";

    private static double LevelFor3Percent(Settings settings, double freqHz) => Harmonics.Where(-18, -7, 0.03, level =>
    {
        var h = Harmonics.Of(Tape.Definition, settings, freqHz, level, 1200);
        return h[2] / h[0];
    });

    private static double FoldedDb(int factor, int rate)
    {
        var level = LevelFor3Percent(Of((15, "iec")), 5000);
        return Harmonics.FoldedDb(Tape.Definition, Of((15, "iec"), (Tape.Factor, (double)factor)), 5000, level, rate);
    }

    private static double Evens()
    {
        var h = Harmonics.Of(Tape.Definition, Of((15, "iec")), 1000, -10, 48000);
        return Spectrum.Decibels(Math.Max(h[1], Math.Max(h[3], h[5])) / h[0]);
    }

    private static double ThirdRise()
    {
        var ratios = new[] { -40.0, -34, -28, -22 }.Select(level =>
        {
            var h = Harmonics.Of(Tape.Definition, Of((15, "iec"), (Tape.Bump, 0.0)), 700, level, 4800);
            return Spectrum.Decibels(h[2] / h[0]);
        }).ToArray();
        return ratios.Zip(ratios.Skip(1), (a, b) => b - a).MaxBy(rise => Math.Abs(rise - 12));
    }

    private static IEnumerable<Check> Loops(double peakField)
    {
        var ours = new Lazy<MagneticLoop>(() => MagneticLoop.OfTheMedium(peakField));
        var exact = new Lazy<MagneticLoop>(() => MagneticLoop.Integrated(peakField));
        var name = $"loop to {peakField / 1000} kA/m";
        yield return new Check("tape", $"{name}: area (positive, a loss), distance", Hysteresis, Bar.AtMost(1, "%", 2), () => ours.Value.Area > 0 ? Off(m => m.Area) : 100);
        yield return new Check("tape", $"{name}: peak, distance", Hysteresis, Bar.AtMost(1, "%", 2), () => Off(m => m.Peak));
        yield return new Check("tape", $"{name}: remanence, distance", Hysteresis, Bar.AtMost(1, "%", 2), () => Off(m => m.Remanence));
        yield return new Check("tape", $"{name}: coercive field, distance", Hysteresis, Bar.AtMost(1, "%", 2), () => Off(m => m.Coercivity));

        double Off(Func<MagneticLoop, double> figure) => 100 * Math.Abs((figure(ours.Value) / figure(exact.Value)) - 1);
    }

    private static double EqualizationDb((double Speed, string Curve) machine)
    {
        var (bassSeconds, trebleSeconds) = machine switch
        {
            (7.5, "iec") => (0.0, 70e-6),
            (15, "iec") => (0, 35e-6),
            (30, "iec") => (0, 17.5e-6),
            _ => (3180e-6, 50e-6),
        };
        return new[] { 44100, 48000, 96000 }.Max(rate =>
        {
            var equalization = TapeEqualization.For(machine.Speed, machine.Curve == "nab");
            var treble = equalization.TrebleOut(rate);
            var bass = new FilterCascade([.. equalization.BassIn(rate).Select(b => b.Inverse())]);
            var trebleResponse = Signals.Impulse(2000).Select(x => treble.Next(x)).ToArray();
            var bassResponse = Signals.Impulse(rate / 2).Select(bass.Next).ToArray();
            double Measured(double f) => Spectrum.Decibels((Spectrum.ResponseAt(trebleResponse, f, 2 * rate) * Spectrum.ResponseAt(bassResponse, f, rate)).Magnitude);
            double Formula(double f)
            {
                var w = 2 * Math.PI * f;
                return (bassSeconds == 0 ? 0 : -10 * Math.Log10(1 + (1 / Math.Pow(w * bassSeconds, 2)))) - (10 * Math.Log10(1 + Math.Pow(w * trebleSeconds, 2)));
            }

            return new[] { 20.0, 31.5, 50, 100, 400, 1000, 3000, 6300, 10000, 14000, 16000, 18000, 20000 }
                .Max(f => Math.Abs(Measured(f) - Measured(1000) - Formula(f) + Formula(1000)));
        });
    }

    private static double TopDb(double speed, double topDb)
    {
        var with = Of((speed, "iec"), (Tape.Top, topDb), (Tape.Bump, 0.0));
        var without = Of((speed, "iec"), (Tape.Bump, 0.0));

        // One number scales the three lengths together; find it from the formulas alone.
        var scale = Harmonics.Where(0, 20, -topDb, s => -LossDb(speed, s, 14000));
        return new[] { 1000.0, 5000, 10000, 14000, 20000 }.Max(f =>
            Math.Abs(Spectrum.Decibels(Harmonics.Of(Tape.Definition, with, f, -60)[0] / Harmonics.Of(Tape.Definition, without, f, -60)[0]) - LossDb(speed, scale, f)));
    }

    private static double LossDb(double speed, double scale, double freqHz)
    {
        var k = 2 * Math.PI * freqHz / (speed * 0.0254);
        var (d, delta, g) = (scale * 1e-6, scale * 10e-6, scale * 1.11 * 3e-6);
        return scale == 0 ? 0 : Spectrum.Decibels(Math.Exp(-k * d) * ((1 - Math.Exp(-k * delta)) / (k * delta)) * (Math.Sin(k * g / 2) / (k * g / 2)));
    }

    // Wherever the filter's middle is.
    private static double OverHeads(Func<double[], Func<double, double>, int, double> figure) => SaturateChecks.Rates.Max(rate =>
    {
        var filters = BandFilter.For(rate);
        var lag = new TapeLag(rate, 8);
        return new[] { 7.5, 15, 30 }.Max(speed => new[] { 0.0, -3, -12 }.Max(topDb => Enumerable.Range(0, 4).Max(quarter =>
        {
            var loss = new HeadLoss(speed, Math.Pow(10, topDb / 20));
            return figure(filters.LowPass(filters.LowPassReach(false) + (quarter / 4.0), f => loss.GainAt(f * rate) / lag.GainAt(f * rate), false), f => loss.GainAt(f) / lag.GainAt(f), rate);
        })));
    });

    private static double LossesOffDb(double[] taps, Func<double, double> gain, int rate) =>
        Enumerable.Range(1, 200).Max(i => Math.Abs(Spectrum.Decibels(Spectrum.ResponseAt(taps, i * 100, 2 * rate).Magnitude / gain(i * 100))));

    private static double PhaseDegrees(int freqHz, double levelDb)
    {
        var window = Run.Through(Tape.Definition, Of((15, "iec"), (Tape.Bump, 0.0)), [Signals.Sine(48000 + 4800, freqHz, Math.Pow(10, levelDb / 20))])[0].AsSpan(48000).ToArray();
        return Spectrum.ResponseAt(window, freqHz, 48000).Phase * 180 / Math.PI;
    }

    private static double SmallPhaseDegrees(int rate)
    {
        var processor = Tape.Definition.Create(Of((15, "iec"), (Tape.Bump, 0.0)), new ProcessorContext(new AudioFormat(rate, 1), 0));
        var delay = 100 + processor.LatencyFrames;
        var response = Run.Through(processor, [Signals.Impulse(rate / 2, 100, 1e-6)], 1)[0];
        return Enumerable.Range(5, 36).Max(i =>
            Math.Abs((Spectrum.ResponseAt(response, i * 500, rate) * Complex.FromPolarCoordinates(1, 2 * Math.PI * i * 500 * delay / rate)).Phase) * 180 / Math.PI);
    }

    private static double SteadyDb()
    {
        var input = Signals.Hits(4 * 48000, 12000, 2000, level: 1).Select(x => (x * x) + 0.2).ToArray();
        var output = Run.Through(Tape.Definition, Of((15, "iec"), (Tape.Drive, 12.0)), [input], extraFrames: 96000)[0];
        return Spectrum.Decibels(Math.Abs(output.Sum()) / input.Sum());
    }
}
