using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class DuckPictures
{
    private const int FramesPerMs = 48;
    private const int LengthMs = 900;

    public static IEnumerable<Picture> All() =>
    [
        new("duck_dip.png", "Two hits of the key (grey) and what the duck does to a layer beside them (blue): down by 6 dB within a millisecond, back along a raised cosine once the key has been below the threshold for the hold.", Dip),
    ];

    private static Plot Dip()
    {
        var key = new double[LengthMs * FramesPerMs];
        foreach (var (at, level) in new[] { (100, 0.8), (500, 0.4) })
        {
            for (var i = 0; i + (at * FramesPerMs) < key.Length; i++)
            {
                key[i + (at * FramesPerMs)] += level * Math.Exp(-i / 2400.0) * Math.Sin(2 * Math.PI * 198 * i / 48000);
            }
        }

        // A layer that stands at full scale shows the gain itself.
        var layer = new double[key.Length];
        Array.Fill(layer, 1.0);
        var duck = Duck.Definition.With(Duck.Threshold.To(-24), Duck.Amount.To(6), Duck.Hold.To(20), Duck.Release.To(120)) with { Key = [key] };
        var gain = WholeSignal.Through([layer], 48000, duck)[0];

        var plot = House.Plot("Duck: a layer steps back for two hits", "Time, ms", "Level, dBFS (1 ms); gain, dB");
        plot.Axes.SetLimits(0, LengthMs, -60, 18);
        double[] times = [.. Enumerable.Range(0, LengthMs).Select(i => (double)i)];
        plot.Line(times, [.. times.Select(t => Spectrum.Decibels(Math.Max(1e-4, key.AsSpan((int)t * FramesPerMs, FramesPerMs).ToArray().Max(Math.Abs))))], House.Grey, LinePattern.Solid, "the key", 1.5f);
        plot.Line(times, [.. times.Select(t => Spectrum.Decibels(gain[(int)t * FramesPerMs]))], House.Blue, LinePattern.Solid, "the layer's gain");
        plot.Line([0, LengthMs], [-24, -24], House.Ink, LinePattern.Dotted, "threshold −24 dBFS", 1.5f);
        plot.ShowLegend(Alignment.UpperRight);
        return plot;
    }
}
