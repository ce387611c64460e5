using DrumPrint.Conformance.Checks;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Saturation;
using DrumPrint.Dsp.Tests.Support;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class TapePictures
{
    private static readonly double[] Frequencies = [.. Dsp.Tests.Support.Response.AudibleFrequencies(120)];

    public static IEnumerable<Picture> All() =>
    [
        new("tape_loop.png", "How the medium remembers: magnetisation against the field, round and round; our solver (lines) lies on the published equations integrated in small steps (dashes), and the area inside is what is lost.", Loop),
        new("tape_third.png", "The third harmonic rises by 2 dB for each dB and reaches 3 % where the headroom says, 8 dB over the reference of −18 dBFS.", Third),
        new("tape_equalisation.png", "Playback equalisation of each speed and standard as measured (lines) and from its published time constants (dashes), from their level at 1 kHz.", Equalisation),
        new("tape_losses.png", "Why the top goes first, at 15 in/s: the gap between head and tape, the depth of the coating, the gap in the head, and what `top_db` −3 makes of the three together.", Losses),
    ];

    private static Plot Loop()
    {
        var plot = House.Plot("Hysteresis of the medium", "Field, kA/m", "Magnetisation, kA/m");
        plot.Axes.SetLimits(-210, 210, -330, 330);
        foreach (var (peak, colour) in new[] { (200e3, House.Blue), (100e3, House.Orange), (50e3, House.Ink) })
        {
            var ours = MagneticLoop.OfTheMedium(peak);
            var exact = MagneticLoop.Integrated(peak);
            plot.Line(Round(ours.Field, 1), Round(ours.Magnetisation, 1), colour, LinePattern.Solid, $"to {peak / 1000} kA/m", 4);
            plot.Line(Round(exact.Field, 50), Round(exact.Magnetisation, 50), Colors.White, LinePattern.Dashed, width: 1.5f);
        }

        plot.ShowLegend(Alignment.UpperLeft);
        return plot;

        static double[] Round(double[] values, int every) => [.. values.Where((_, n) => n % every == 0).Append(values[0]).Select(v => v / 1000)];
    }

    private static Plot Third()
    {
        var plot = House.Plot("Third harmonic of a 1 kHz sine on tape (15 in/s)", "Level of the sine, dBFS", "Third harmonic, dB under the sine");
        plot.Axes.SetLimits(-42, -4, -100, -15);
        double[] levels = [.. Enumerable.Range(0, 19).Select(i => -40 + (2.0 * i))];
        var measured = levels.Select(level =>
        {
            var window = Run.Through(Tape.Definition, Settings.Of(Tape.Definition.Parameters), [Signals.Sine(9600, 1000, Math.Pow(10, level / 20))])[0].AsSpan(4800).ToArray();
            return Spectrum.Decibels(Spectrum.AmplitudeAt(window, 3000) / Spectrum.AmplitudeAt(window, 1000));
        }).ToArray();
        plot.Line([-40, -10], [measured[0], measured[0] + 60], House.Grey, LinePattern.Dotted, "2 dB for each dB", 2);
        plot.Line([-42, -4], [-30.46, -30.46], House.Ink, LinePattern.Dashed, "3 %", 1.5f);
        plot.Line([-10, -10], [-100, -15], House.Orange, LinePattern.Dashed, "reference −18 + headroom 8", 2);
        plot.Line(levels, measured, House.Blue, LinePattern.Solid, "tape", 3);
        plot.ShowLegend(Alignment.LowerRight);
        return plot;
    }

    private static Plot Equalisation()
    {
        var plot = House.OverFrequency("Playback equalisation", "Level against 1 kHz, dB", -26, 4);
        foreach (var (speed, isNab, bass, treble, colour, pattern) in new (double, bool, double, double, Color, LinePattern)[]
        {
            (30, false, 0, 17.5e-6, House.Sky, LinePattern.Solid),
            (15, false, 0, 35e-6, House.Blue, LinePattern.Solid),
            (7.5, false, 0, 70e-6, House.Ink, LinePattern.Solid),
            (15, true, 3180e-6, 50e-6, House.Orange, LinePattern.Solid),
        })
        {
            const int Rate = 48000;
            var equalization = TapeEqualization.For(speed, isNab);
            var trebleOut = equalization.TrebleOut(Rate);
            var bassOut = new FilterCascade([.. equalization.BassIn(Rate).Select(b => b.Inverse())]);
            var high = Signals.Impulse(2000).Select(x => trebleOut.Next(x)).ToArray();
            var low = Signals.Impulse(Rate / 2).Select(bassOut.Next).ToArray();
            double Measured(double f) => Spectrum.Decibels((Spectrum.ResponseAt(high, f, 2 * Rate) * Spectrum.ResponseAt(low, f, Rate)).Magnitude);
            double Formula(double f)
            {
                var w = 2 * Math.PI * f;
                return (bass == 0 ? 0 : -10 * Math.Log10(1 + (1 / Math.Pow(w * bass, 2)))) - (10 * Math.Log10(1 + Math.Pow(w * treble, 2)));
            }

            var (reference, expected) = (Measured(1000), Formula(1000));
            plot.Response(Frequencies, f => Measured(f) - reference, colour, pattern, FormattableString.Invariant($"{speed} in/s {(isNab ? "NAB (7.5 too)" : "IEC")}"), 4);
            plot.Response(Frequencies, f => Formula(f) - expected, Colors.White, LinePattern.Dashed, width: 1.5f);
        }

        plot.ShowLegend(Alignment.LowerLeft);
        return plot;
    }

    private static Plot Losses()
    {
        var plot = House.OverFrequency("Losses of a playback head at 15 in/s", "Level, dB", -13, 1, 500);
        const double Speed = 15 * 0.0254;
        plot.Response(Frequencies, f => Spectrum.Decibels(HeadLoss.Thickness(10e-6, Speed / f)), House.Ink, LinePattern.DenselyDashed, "coating of 10 µm");
        plot.Response(Frequencies, f => Spectrum.Decibels(HeadLoss.Spacing(1e-6, Speed / f)), House.Orange, LinePattern.Dashed, "1 µm between tape and head");
        plot.Response(Frequencies, f => Spectrum.Decibels(HeadLoss.Gap(1.11 * 3e-6, Speed / f)), House.Sky, LinePattern.Solid, "head gap of 3 µm");
        var loss = new HeadLoss(15, Math.Pow(10, -3.0 / 20));
        plot.Response(Frequencies, f => Spectrum.Decibels(loss.GainAt(f)), House.Blue, LinePattern.Solid, "tape with top_db −3 (at 14 kHz)", 4);
        plot.ShowLegend(Alignment.LowerLeft);
        return plot;
    }
}
