using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class SaturationPictures
{
    private const int Settle = 9600;

    public static IEnumerable<Picture> All() =>
    [
        new("alias.png", "A 5 kHz sine cut off hard until its third harmonic is 3 %: every other line has folded back from above half the sample rate, loud without oversampling (triangles) and below −100 dB at 8 times (dots).", Alias),
        new("saturate_curves.png", "The three curves: what comes out for each level in; cubic and hard reach their ceiling, soft bends all the way.", Curves),
    ];

    private static Plot Alias()
    {
        var drive = DriveFor3Percent();
        var plot = House.Plot("Folded products of a 5 kHz sine, cut off hard (48 kHz)", "Frequency, kHz", "Level against the sine, dB");
        plot.Axes.SetLimits(0, 24, -180, 36);
        var plain = Signals.Sine(Settle + 4800, 5000, Math.Pow(10, drive / 20)).Select(x => Math.Clamp(x, -1, 1)).ToArray();
        Draw("no oversampling", plain, House.Orange, MarkerShape.FilledTriangleUp);
        foreach (var (factor, colour, shape) in new[] { (2, House.Sky, MarkerShape.FilledSquare), (8, House.Blue, MarkerShape.FilledCircle) })
        {
            var settings = Settings.Of(Saturate.Definition.Parameters, (Saturate.Shape, "hard"), (Saturate.Drive, drive), (Saturate.Factor, (double)factor));
            Draw($"{factor} times", Run.Through(Saturate.Definition, settings, [Signals.Sine(Settle + 4800, 5000)])[0], colour, shape);
        }

        plot.Line([0, 24], [-100, -100], House.Ink, LinePattern.Dotted, "−100 dB", 1.5f);
        plot.Note("the sine", 5.3, 5);
        plot.Note("its third harmonic, 3 %", 15.3, -22);
        plot.ShowLegend(Alignment.UpperRight, Orientation.Horizontal);
        return plot;

        void Draw(string name, double[] signal, Color colour, MarkerShape shape)
        {
            var window = signal.AsSpan(Settle).ToArray();
            var first = Spectrum.AmplitudeAt(window, 5000);
            var lines = Enumerable.Range(1, 23).Select(k => (K: k, Db: Spectrum.Decibels(Spectrum.AmplitudeAt(window, 1000 * k) / first))).Where(l => l.Db > -175).ToArray();
            foreach (var (k, db) in lines)
            {
                plot.Line([k, k], [-180, db], colour, LinePattern.Solid, width: 1.5f);
            }

            var points = plot.Add.ScatterPoints(lines.Select(l => (double)l.K).ToArray(), lines.Select(l => l.Db).ToArray(), colour);
            points.MarkerShape = shape;
            points.MarkerSize = 11;
            points.LegendText = name;
        }
    }

    private static double DriveFor3Percent()
    {
        var (low, high) = (0.0, 6.0);
        for (var i = 0; i < 12; i++)
        {
            var drive = (low + high) / 2;
            var window = Run.Through(Saturate.Definition, Settings.Of(Saturate.Definition.Parameters, (Saturate.Shape, "hard"), (Saturate.Drive, drive)), [Signals.Sine(1440, 5000)])[0].AsSpan(480);
            (low, high) = Spectrum.AmplitudeAt(window, 15000) / Spectrum.AmplitudeAt(window, 5000) < 0.03 ? (drive, high) : (low, drive);
        }

        return high;
    }

    private static Plot Curves()
    {
        var plot = House.Plot("Saturation curves: a slow swing in and out", "In", "Out");
        plot.Axes.SetLimits(-3, 3, -1.15, 1.15);
        plot.Line([-1.1, 1.1], [-1.1, 1.1], House.Grey, LinePattern.Dotted, "untouched", 1.5f);
        foreach (var (shape, colour, pattern) in new[] { ("soft", House.Blue, LinePattern.Solid), ("cubic", House.Orange, LinePattern.Dashed), ("hard", House.Ink, LinePattern.DenselyDashed) })
        {
            var settings = Settings.Of(Saturate.Definition.Parameters, (Saturate.Shape, shape));
            var input = Signals.Sine(9600, 10, 3);
            var processor = Saturate.Definition.Create(settings, new Dsp.ProcessorContext(new Dsp.AudioFormat(48000, 1), 9600));
            var output = Run.Through(processor, [input], 1, extraFrames: processor.LatencyFrames)[0][processor.LatencyFrames..];
            int[] rising = [.. Enumerable.Range(3600, 2400).Where(n => n % 12 == 0)];
            plot.Line([.. rising.Select(n => input[n])], [.. rising.Select(n => output[n])], colour, pattern, shape, 3);
        }

        plot.ShowLegend(Alignment.UpperLeft);
        return plot;
    }
}
