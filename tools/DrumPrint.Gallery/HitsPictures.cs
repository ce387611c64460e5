using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class HitsPictures
{
    private const int FramesPerMs = 48;
    private const int LengthMs = 900;

    public static IEnumerable<Picture> All() =>
    [
        new("hits_shape.png", "Two hits, 30 dB apart (grey), and the gain that each is given: beginnings raised by 6 dB (blue), bodies lowered by 6 dB (orange, dashed). Both hits get the same.", Shape),
    ];

    private static Plot Shape()
    {
        var key = new double[LengthMs * FramesPerMs];
        foreach (var (at, level) in new[] { (100, 0.8), (500, 0.8 * Math.Pow(10, -1.5)) })
        {
            for (var i = 0; i + (at * FramesPerMs) < key.Length; i++)
            {
                key[i + (at * FramesPerMs)] = level * Math.Exp(-i / 2000.0) * Math.Cos(2 * Math.PI * 198 * i / 48000);
            }
        }

        // A layer that stands at full scale shows the gain itself.
        var layer = new double[key.Length];
        Array.Fill(layer, 1.0);
        double[] Gain(ProcessorStep step) => [.. WholeSignal.Through([layer], 48000, step with { Key = [key] })[0].Select(Spectrum.Decibels)];
        var begin = Gain(Hits.Definition.With(Hits.Begin.To(6)));
        var body = Gain(Hits.Definition.With(Hits.Body.To(-6)));

        var plot = House.Plot("Hits: a loud hit and a ghost note are given the same", "Time, ms", "Level, dBFS (1 ms); gain, dB");
        plot.Axes.SetLimits(0, LengthMs, -70, 16);
        double[] times = [.. Enumerable.Range(0, LengthMs).Select(i => (double)i)];
        plot.Line(times, [.. times.Select(t => Spectrum.Decibels(Math.Max(1e-4, key.AsSpan((int)t * FramesPerMs, FramesPerMs).ToArray().Max(Math.Abs))))], House.Grey, LinePattern.Solid, "the hits", 1.5f);
        plot.Line(times, [.. times.Select(t => begin[(int)t * FramesPerMs])], House.Blue, LinePattern.Solid, "gain, beginnings +6 dB");
        plot.Line(times, [.. times.Select(t => body[(int)t * FramesPerMs])], House.Orange, LinePattern.Dashed, "gain, bodies −6 dB");
        plot.ShowLegend(Alignment.UpperRight);
        return plot;
    }
}
