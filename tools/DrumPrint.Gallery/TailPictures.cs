using DrumPrint.Demo.Spaces;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class TailPictures
{
    private const int Window = 4096;
    private const double Step = 0.1;
    private const int Slices = 21;
    private const double Drop = 5;

    public static IEnumerable<Picture> All() =>
    [
        new("tail_waterfall.png", "A click through the demo session's chamber, a spectrum every 100 ms from the back to the front: the top dies away first, the low end rings longest.", Waterfall),
        new("tail_decay.png", "The same tail as energy still to come (Schroeder's curve), whole and shortened with `decay_s`: straight lines that fall by 60 dB in the stated time.", Decay),
    ];

    private static Plot Waterfall()
    {
        var tail = Tail();
        var plot = House.OverFrequency("Waterfall of a chamber's tail", "", -200, 36, 50, 24000);
        plot.Axes.Left.TickGenerator = new ScottPlot.TickGenerators.EmptyTickGenerator();
        plot.YLabel("each line 100 ms after the one behind it", 16);
        plot.Axes.Left.Label.Bold = false;
        double[] frequencies = [.. Enumerable.Range(0, 90).Select(i => 50 * Math.Pow(16000 / 50.0, i / 89.0))];
        var x = frequencies.Select(Math.Log10).ToArray();
        for (var slice = 0; slice < Slices; slice++)
        {
            var start = (int)(slice * Step * 48000);
            var levels = frequencies.Select(f => Math.Max(-85, Level(tail, start, f)) - (slice * Drop)).ToArray();
            var isLabelled = slice % 5 == 0;
            var fill = plot.Add.FillY(x, levels, [.. levels.Select(_ => -250.0)]);
            fill.FillColor = Colors.White;
            fill.LineWidth = 0;
            fill.MarkerSize = 0;
            plot.Line(x, levels, isLabelled ? House.Blue : House.Grey, LinePattern.Solid, width: isLabelled ? 3 : 1.5f);
            if (isLabelled)
            {
                plot.Note(FormattableString.Invariant($"{slice * Step:0.0} s"), x[^1] + 0.02, levels[^1] + 5, House.Blue);
            }
        }

        var scale = plot.Add.Line(Math.Log10(60), -195, Math.Log10(60), -175);
        scale.LineColor = House.Ink;
        scale.LineWidth = 3;
        plot.Note("20 dB", Math.Log10(64), -180);
        return plot;
    }

    private static Plot Decay()
    {
        var plot = House.Plot("Energy still to come in the tail", "Time, s", "dB");
        plot.Axes.SetLimits(0, 2.4, -70, 2);
        foreach (var (decay, colour, pattern) in new (double?, Color, LinePattern)[] { (null, House.Ink, LinePattern.Solid), (1.4, House.Blue, LinePattern.Dashed), (0.8, House.Orange, LinePattern.DenselyDashed) })
        {
            var tail = Tail(decay);
            var left = new double[tail[0].Length + 1];
            for (var n = tail[0].Length - 1; n >= 0; n--)
            {
                left[n] = left[n + 1] + (tail[0][n] * tail[0][n]) + (tail[1][n] * tail[1][n]);
            }

            int[] frames = [.. Enumerable.Range(0, 250).Select(i => i * 480).Where(n => left[n] > 0)];
            plot.Line([.. frames.Select(n => n / 48000.0)], [.. frames.Select(n => 10 * Math.Log10(left[n] / left[0]))], colour, pattern, decay is null ? "as it is (1.9 s)" : FormattableString.Invariant($"decay_s {decay}"), 3);
        }

        plot.Line([0, 2.4], [-60, -60], House.Grey, LinePattern.Dotted, "−60 dB", 1.5f);
        plot.ShowLegend(Alignment.UpperRight);
        return plot;
    }

    private static double[][] Tail(double? decay = null)
    {
        var impulses = new Dictionary<string, Impulse> { ["chamber"] = new("chamber", 48000, ImpulseLayout.TrueStereo, Chamber.Make()) };
        (Parameter, object)[] values = [(Convolve.ImpulseName, "chamber"), (Convolve.Level, "peak"), .. decay is { } d ? [(Convolve.DecayTarget, d)] : Array.Empty<(Parameter, object)>()];
        var processor = Convolve.Definition.Create(Settings.Of(Convolve.Definition.Parameters, values), new ProcessorContext(new AudioFormat(48000, 1), 0, 0, impulses));
        return Array.ConvertAll(Run.Through(processor, [Signals.Impulse(134400)], 2, 480, processor.LatencyFrames), c => c[processor.LatencyFrames..]);
    }

    // Mean level of a third of an octave in a window of 85 ms, both sides.
    private static double Level(double[][] sides, int start, double freqHz)
    {
        var sum = 0.0;
        foreach (var side in sides)
        {
            var window = Enumerable.Range(0, Window).Select(n => start + n < side.Length ? side[start + n] * (0.5 - (0.5 * Math.Cos(2 * Math.PI * n / Window))) : 0).ToArray();
            for (var part = -4; part <= 4; part++)
            {
                sum += Math.Pow(Spectrum.ResponseAt(window, freqHz * Math.Pow(2, part / 24.0)).Magnitude, 2) / 18;
            }
        }

        return 10 * Math.Log10(sum + 1e-20);
    }
}
