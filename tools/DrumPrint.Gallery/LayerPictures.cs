using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class LayerPictures
{
    private const int FramesPerMs = 48;

    public static IEnumerable<Picture> All() =>
    [
        new("layer_hits.png", "Three hits of a snare, the second 18 dB softer and the third upside down (grey), and the sound of another one that is played under each (blue): as loud, and where the two correlate best. With another pitch that can be half a period later and the other way round; a smaller reach_ms forbids it.", Hits),
    ];

    private static Plot Hits()
    {
        var snare = LayerRuns.Drums["snare"];
        var track = new double[700 * FramesPerMs];
        foreach (var (ms, height) in new[] { (50.0, 1.0), (270.3, 0.125), (480.7, -0.7) })
        {
            PlayedHits.Add(track, snare, ms * FramesPerMs, height);
        }

        var layer = LayerRuns.Through(track, PlayedHits.Drum(205, 60, 0.3, 40, 99)).Output;
        var plot = House.Plot("Layer: a sound under each hit", "Time, ms", "Sample value");
        plot.Axes.SetLimits(0, 700, -1, 1);
        double[] times = [.. Enumerable.Range(0, track.Length).Select(n => (double)n / FramesPerMs)];
        plot.Line(times, track, House.Grey, LinePattern.Solid, "the hits", 1.5f);
        plot.Line(times, layer[..track.Length], House.Blue, LinePattern.Solid, "what is played under them", 1.5f);
        plot.ShowLegend(Alignment.UpperRight);
        return plot;
    }
}
