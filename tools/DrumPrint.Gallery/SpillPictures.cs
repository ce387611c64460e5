using DrumPrint.Dsp.Tests.Support;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class SpillPictures
{
    private const int FirstMs = 2300;
    private const int LengthMs = 1700;
    private const int WindowMs = 5;
    private const int FramesPerMs = 48;

    public static IEnumerable<Picture> All() =>
    [
        new("spill_parted.png", "A snare's microphone with two ghost notes between loud hits, and a tom 12 dB down in it (grey); after `spill` with the tom's microphone as key (blue). The tom goes down by 12 dB, hits and ghosts stay.", Parted),
    ];

    private static Plot Parted()
    {
        var scene = SpillScene.SnareAndTom(2, -12, -20);
        var plot = House.Plot("Spill: the tom goes down, ghost notes stay", "Time, ms", "Level, dBFS (5 ms)");
        plot.Axes.SetLimits(0, LengthMs, -70, 6);
        double[] times = [.. Enumerable.Range(0, LengthMs / WindowMs).Select(i => (double)i * WindowMs)];
        double[] Levels(double[] x) => [.. times.Select(t => Spectrum.Decibels(Math.Max(1e-4, x.AsSpan((FirstMs + (int)t) * FramesPerMs, WindowMs * FramesPerMs).ToArray().Max(Math.Abs))))];
        plot.Line(times, Levels(scene.Mix), House.Grey, LinePattern.Solid, "as the microphone hears it", 3);
        plot.Line(times, Levels(scene.Through()), House.Blue, LinePattern.Solid, "after spill, 12 dB at most");
        plot.ShowLegend(Alignment.UpperRight);
        return plot;
    }
}
