using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class GatePictures
{
    public static IEnumerable<Picture> All() =>
    [
        new("gate_burst.png", "A snare hit, a ghost note and another hit over spill (grey): the gate (blue) opens 1 ms before each hit, holds, falls in a straight line of decibels and keeps the ghost note down.", Burst),
    ];

    private static Plot Burst()
    {
        var noise = Signals.Noise(48000, 6);
        var input = Signals.Noise(48000, 5, 0.004);
        foreach (var (at, level) in new[] { (3000, 1.0), (15000, 0.03), (27000, 0.8) })
        {
            for (var i = 0; i < 9600; i++)
            {
                input[at + i] += level * Math.Min(1, (i + 1) / 8.0) * ((0.5 * Math.Exp(-i / 900.0) * noise[at + i]) + (0.4 * Math.Exp(-i / 1800.0) * Math.Sin(2 * Math.PI * 198 * i / 48000)));
            }
        }

        var settings = Settings.Of(Gate.Definition.Parameters, (Gate.Open, -30.0), (Gate.Close, -36.0), (Gate.Ahead, 1.0), (Gate.Attack, 1.0), (Gate.Hold, 60.0), (Gate.Release, 120.0), (Gate.Range, -60.0));
        var gate = Gate.Definition.Create(settings, new ProcessorContext(new AudioFormat(48000, 1), input.Length));
        var output = Run.Through(gate, [input], 1, extraFrames: gate.LatencyFrames)[0][gate.LatencyFrames..];

        var plot = House.Plot("Gate: two hits and a ghost note", "Time, ms", "Level, dBFS (1 ms)");
        plot.Axes.SetLimits(0, 900, -100, 36);
        double[] times = [.. Enumerable.Range(0, 900).Select(i => (double)i)];
        plot.Line(times, [.. times.Select(t => Level(input, (int)t))], House.Grey, LinePattern.Solid, "microphone", 1.5f);
        plot.Line(times, [.. times.Select(t => Level(output, (int)t))], House.Blue, LinePattern.Solid, "gated");
        plot.Line(times, [.. times.Select(t => Spectrum.Decibels(Math.Abs(output[(int)t * 48] / input[(int)t * 48])))], House.Orange, LinePattern.Dashed, "the gate's gain, dB");
        plot.Line([0, 900], [-30, -30], House.Ink, LinePattern.Dotted, "opens at −30, closes at −36 dBFS", 1.5f);
        plot.Line([0, 900], [-36, -36], House.Ink, LinePattern.Dotted, width: 1.5f);
        plot.Note("ghost note", 325, -22);
        plot.ShowLegend(Alignment.UpperRight);
        return plot;
    }

    private static double Level(double[] signal, int millisecond) => Spectrum.Decibels(signal.AsSpan(millisecond * 48, 48).ToArray().Max(Math.Abs));
}
