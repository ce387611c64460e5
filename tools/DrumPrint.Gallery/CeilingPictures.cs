using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class CeilingPictures
{
    public static IEnumerable<Picture> All() =>
    [
        new("limit_peak.png", "A sine of a quarter of the rate, two of its periods louder: the samples as they came (dots) stay under full scale while the wave between them (grey) does not; limited (blue) the wave stays under the ceiling.", Peak),
        new("clip_curves.png", "What comes out of the clipper for each level in: a corner (blue), half a bend (orange, dashed) and a whole one (light blue, dotted), all under one ceiling.", Curves),
    ];

    private static Plot Curves()
    {
        var plot = House.Plot("Clip: from a corner to a bend, under one ceiling", "In, as part of full scale", "Out");
        plot.Axes.SetLimits(0, 2, 0, 1.1);
        double[] levels = [.. Enumerable.Range(1, 40).Select(i => i / 20.0)];
        foreach (var (soft, colour, pattern) in new[] { (0.0, House.Blue, LinePattern.Solid), (50.0, House.Orange, LinePattern.Dashed), (100.0, House.Sky, LinePattern.Dotted) })
        {
            var step = Clip.Definition.With(Clip.Soft.To(soft));
            plot.Line(levels, [.. levels.Select(x => WholeSignal.Through([[.. Enumerable.Repeat(x, 48000)]], 48000, step)[0][40000])], colour, pattern, FormattableString.Invariant($"soft {soft} %"));
        }

        plot.Line([0, 2], [Math.Pow(10, -0.05), Math.Pow(10, -0.05)], House.Ink, LinePattern.Dotted, "ceiling −1 dBTP", 1.5f);
        plot.ShowLegend(Alignment.LowerRight);
        return plot;
    }

    private static Plot Peak()
    {
        const int Frames = 480;
        double[] input = [.. Enumerable.Range(0, Frames).Select(n => (n is >= 236 and < 244 ? 1.0 : 0.6) * 1.35 * Math.Sin((Math.PI / 2 * n) + (Math.PI / 4)))];
        var output = WholeSignal.Through([input], 48000, Limit.Definition.With())[0];

        var plot = House.Plot("Limit: the wave between the samples stays under the ceiling", "Time, frames", "Sample value");
        plot.Axes.SetLimits(228, 252, -1.5, 1.9);
        double[] times = [.. Enumerable.Range(0, 24 * 40).Select(i => 228 + (i / 40.0))];
        plot.Line(times, [.. times.Select(t => At(input, t))], House.Grey, LinePattern.Solid, "the wave as it came", 1.5f);
        plot.Line(times, [.. times.Select(t => At(output, t))], House.Blue, LinePattern.Solid, "limited");
        plot.Line([228, 252], [Math.Pow(10, -0.05), Math.Pow(10, -0.05)], House.Ink, LinePattern.Dotted, "ceiling −1 dBTP", 1.5f);
        plot.Line([228, 252], [-Math.Pow(10, -0.05), -Math.Pow(10, -0.05)], House.Ink, LinePattern.Dotted, null, 1.5f);
        var dots = plot.Add.ScatterPoints(Enumerable.Range(228, 25).Select(n => (double)n).ToArray(), [.. Enumerable.Range(228, 25).Select(n => input[n])], House.Orange);
        dots.MarkerSize = 9;
        dots.LegendText = "samples as they came";
        plot.ShowLegend(Alignment.UpperRight);
        return plot;
    }

    // A slow, long interpolation.
    private static double At(double[] signal, double time)
    {
        const int Half = 120;
        var sum = 0.0;
        for (var k = Math.Max(0, (int)time - Half); k < Math.Min(signal.Length, (int)time + Half); k++)
        {
            var x = time - k;
            sum += signal[k] * (x == 0 ? 1 : Math.Sin(Math.PI * x) / (Math.PI * x)) * Math.Pow(Math.Cos(Math.PI * Math.Clamp(x / Half, -1, 1) / 2), 2);
        }

        return sum;
    }
}
