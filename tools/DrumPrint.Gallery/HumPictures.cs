using DrumPrint.Dsp.Tests.Support;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class HumPictures
{
    private const int Rate = 48000;
    private const int FirstMs = 8300;
    private const int LengthMs = 1000;
    private const int WindowMs = 20;

    public static IEnumerable<Picture> All() =>
    [
        new("hum_under_kick.png", "A kick tuned to 52 Hz twice a second, with hum of the mains under it (grey); after `hum` (blue); the kick as it was without hum (orange, dashed). The hum goes down between the hits; the hits stay.", UnderKick),
    ];

    private static Plot UnderKick()
    {
        var scene = new HumScene(Rate, HumScene.Kick(Rate, 52), HumScene.HumOf(Rate, 50.03, -46));
        var plot = House.Plot("Hum: taken out between the hits", "Time, ms", "Level, dBFS (20 ms)");
        plot.Axes.SetLimits(0, LengthMs, -90, 6);
        double[] times = [.. Enumerable.Range(0, LengthMs / 5).Select(i => 5.0 * i)];
        double[] Levels(double[] x) => [.. times.Select(t => Spectrum.Decibels(Math.Max(1e-5, x.AsSpan((FirstMs + (int)t) * Rate / 1000, WindowMs * Rate / 1000).ToArray().Max(Math.Abs))))];
        plot.Line(times, Levels(scene.Mix), House.Grey, LinePattern.Solid, "kick and hum", 3);
        plot.Line(times, Levels(scene.Through()), House.Blue, LinePattern.Solid, "after hum");
        plot.Line(times, Levels(scene.Own), House.Orange, LinePattern.Dashed, "kick without hum");
        plot.ShowLegend(Alignment.UpperRight);
        return plot;
    }
}
