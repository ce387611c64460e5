using DrumPrint.Dsp;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Processors;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class PhasePictures
{
    private const int Rate = 48000;
    private static readonly double[] Frequencies = [.. Dsp.Tests.Support.Response.AudibleFrequencies(400)];

    public static IEnumerable<Picture> All() =>
    [
        new("phase_all_pass.png", "How far all-passes at 200 Hz turn the wave back: order 1 by 90° there (orange, dashed), order 2 by 180°, gently with q 0.5 (blue) and suddenly with q 4 (light blue, dotted). No level changes.", AllPass),
        new("phase_turn.png", "A tom's hit (grey) and the same turned by 90° (blue): every level stays, the peak moves, and a little begins before the stick.", Turned),
    ];

    private static Plot AllPass()
    {
        var plot = House.OverFrequency("Phase: all-passes at 200 Hz", "Phase, degrees", -370, 10);
        foreach (var (section, colour, pattern, legend) in new[]
        {
            (AllPassDesign.FirstOrder(200, Rate), House.Orange, LinePattern.Dashed, "order 1"),
            (AllPassDesign.SecondOrder(200, 0.5, Rate), House.Blue, LinePattern.Solid, "order 2, q 0.5"),
            (AllPassDesign.SecondOrder(200, 4, Rate), House.Sky, LinePattern.Dotted, "order 2, q 4"),
        })
        {
            plot.Response(Frequencies, f => Back(Dsp.Tests.Support.Response.At([section], f, Rate).Phase * 180 / Math.PI), colour, pattern, legend);
        }

        plot.ShowLegend(Alignment.LowerLeft);
        return plot;
    }

    // From 0 to −360.
    private static double Back(double degrees) => degrees > 1e-6 ? degrees - 360 : degrees;

    private static Plot Turned()
    {
        const int At = 4800;
        double[] hit = [.. Enumerable.Range(0, 2 * At).Select(n => n < At ? 0 : 0.9 * Math.Exp((At - n) / 1500.0) * Math.Sin(2 * Math.PI * 110 * (n - At) / Rate))];
        var turned = WholeSignal.Through([hit], Rate, Phase.Definition.With(Phase.Turn.To(90)))[0];

        var plot = House.Plot("Phase: a tom's hit, turned by 90°", "Time, ms", "Sample value");
        plot.Axes.SetLimits(-20, 60, -1, 1);
        double[] times = [.. Enumerable.Range(0, 2 * At).Select(n => (n - At) * 1000.0 / Rate)];
        plot.Line(times, hit, House.Grey, LinePattern.Solid, "as it came");
        plot.Line(times, turned[..(2 * At)], House.Blue, LinePattern.Solid, "turned by 90°");
        plot.ShowLegend(Alignment.UpperRight);
        return plot;
    }
}
