using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Dynamics;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class CompressPictures
{
    public static IEnumerable<Picture> All() =>
    [
        new("compress_curve.png", "What comes out for what goes in, threshold −20 dB: sharp corners (lines) and a soft knee of 12 dB (dashes); the rings are the feedback topology, which lands on the same curves.", Curves),
        new("compress_steps.png", "The gain when a hit arrives and leaves: attack and release are the times to 63 % of the way (rings), for every setting.", Steps),
        new("compress_topologies.png", "After a drop that stays above the threshold the feedback topology lets go sooner than feed-forward, though both come to rest at the same gain.", Topologies),
    ];

    private static Plot Curves()
    {
        var plot = House.Plot("Static curves of the compressor", "Level in, dBFS", "Level out, dBFS");
        plot.Axes.SetLimits(-50, 0, -50, 0);
        plot.Line([-50, 0], [-50, 0], House.Grey, LinePattern.Dotted, "untouched", 1.5f);
        double[] levels = [.. Enumerable.Range(0, 101).Select(i => -50 + (i * 0.5))];
        foreach (var (ratio, colour) in new[] { (2, House.Ink), (4, House.Blue), (20, House.Orange) })
        {
            plot.Line(levels, [.. levels.Select(l => Out("feed_forward", ratio, 0, l))], colour, LinePattern.Solid, $"{ratio}:1");
            plot.Line(levels, [.. levels.Select(l => Out("feed_forward", ratio, 12, l))], colour, LinePattern.Dashed, $"{ratio}:1, knee 12 dB", 2);
            double[] some = [-40, -30, -15, -10, -5, -1];
            var rings = plot.Add.ScatterPoints(some, some.Select(l => Out("feedback", ratio, 0, l)).ToArray(), colour);
            rings.MarkerShape = MarkerShape.OpenCircle;
            rings.MarkerSize = 11;
            rings.MarkerLineWidth = 2;
        }

        plot.ShowLegend(Alignment.UpperLeft);
        return plot;
    }

    private static Plot Steps()
    {
        var plot = House.Plot("Attack and release at 4:1: a step of 40 dB and back", "Time, ms", "Gain, dB");
        plot.Axes.SetLimits(-20, 520, -16, 1);
        foreach (var (attack, release, colour, pattern) in new (double, double, Color, LinePattern)[] { (3, 40, House.Ink, LinePattern.Solid), (10, 90, House.Blue, LinePattern.Dashed), (40, 180, House.Orange, LinePattern.DenselyDashed) })
        {
            var gain = Gain("feed_forward", attack, release, (960, -40), (9600, 0), (14400, -40));
            plot.Line([.. Enumerable.Range(0, gain.Length / 24).Select(i => (i * 0.5) - 20)], [.. Enumerable.Range(0, gain.Length / 24).Select(i => gain[i * 24])], colour, pattern, FormattableString.Invariant($"attack {attack} ms, release {release} ms"));
            var rings = plot.Add.ScatterPoints(new[] { attack, 200 + release }, new[] { -15 * (1 - (1 / Math.E)), -15 / Math.E }, colour);
            rings.MarkerShape = MarkerShape.OpenCircle;
            rings.MarkerSize = 13;
            rings.MarkerLineWidth = 2.5f;
        }

        plot.ShowLegend(Alignment.LowerRight);
        return plot;
    }

    private static Plot Topologies()
    {
        var plot = House.Plot("Letting go: 0 dBFS, then −10 dBFS, then −40 dBFS", "Time, ms", "Gain, dB");
        plot.Axes.SetLimits(0, 900, -16, 1);
        foreach (var (topology, name, colour, pattern) in new[] { ("feed_forward", "feed-forward", House.Ink, LinePattern.Dashed), ("feedback", "feedback", House.Blue, LinePattern.Solid) })
        {
            var gain = Gain(topology, 10, 120, (9600, 0), (19200, -10), (14400, -40));
            plot.Line([.. Enumerable.Range(0, gain.Length / 48).Select(i => (double)i)], [.. Enumerable.Range(0, gain.Length / 48).Select(i => gain[i * 48])], colour, pattern, name, 3);
        }

        plot.ShowLegend(Alignment.LowerRight);
        return plot;
    }

    private static double[] Gain(string topology, double attack, double release, params (int, double)[] steps) => Steady.GainDb(
        Compress.Definition,
        Settings.Of(Compress.Definition.Parameters, (Compress.Topology, topology), (Compress.Knee, 0.0), (Compress.Attack, attack), (Compress.Release, release)),
        Steady.Steps(steps));

    private static double Out(string topology, double ratio, double knee, double level) => level + Steady.GainDb(
        Compress.Definition,
        Settings.Of(Compress.Definition.Parameters, (Compress.Topology, topology), (Compress.Ratio, ratio), (Compress.Knee, knee), (Compress.Attack, 0.5), (Compress.Release, 5.0)),
        Steady.Level(960, level))[^1];
}
