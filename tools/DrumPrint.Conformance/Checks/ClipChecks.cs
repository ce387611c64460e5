using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Dynamics;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>The clipper's ceiling, its curve, and what folds back.</summary>
internal static class ClipChecks
{
    public const string Note = "Ceiling −1 dBTP. Hot signals and readers are those of `limit`.";

    private const string TruePeak = "ITU-R BS.1770-5, Annex 2, at 16 points a frame";

    public static IEnumerable<Check> All() =>
    [
        new("clip", "hot signals at 44.1 kHz, hard: highest true peak over the ceiling", TruePeak, Bar.AtMost(0, "dB", 2), () => HighestOverDb(44100, 0)),
        new("clip", "hot signals at 48 kHz, soft 50 %, driven by 12 dB: highest true peak over the ceiling", TruePeak, Bar.AtMost(0, "dB", 2), () => HighestOverDb(48000, 50, 12)),
        new("clip", "hot signals at 96 kHz, soft: highest true peak over the ceiling", TruePeak, Bar.AtMost(0, "dB", 2), () => HighestOverDb(96000, 100)),
        new("clip", "standing levels −40 to 6 dBFS, soft 0 to 100 %: worst distance from the curve, as part of full scale", "min(1, x) and x / √(1 + x²), mixed, as documented", Bar.AtMost(1e-4, "", 6), WorstCurve),
        new("clip", "5 kHz 2 dB over the ceiling, hard, 8 times: worst folded product", "folded products as of `saturate`", Bar.AtMost(-95, "dBc", 0), FoldedDb),
    ];

    private static double HighestOverDb(int rate, double soft, double drive = 0)
    {
        var step = Clip.Definition.With(Clip.Soft.To(soft), Clip.Drive.To(drive));
        return HotSignals.All.Values.Max(signal => TruePeakReaders.HighestDb(WholeSignal.Through([signal], rate, step)[0]) + 1);
    }

    private static double WorstCurve()
    {
        var ceiling = Steady.Amplitude(-1.15);
        return (from soft in new[] { 0.0, 35, 100 }
                from level in new[] { -40.0, -12, -3, 0, 6 }
                let x = Steady.Amplitude(level) / ceiling
                let expected = ceiling * (((1 - (soft / 100)) * Math.Min(1, x)) + (soft / 100 * x / Math.Sqrt(1 + (x * x))))
                select Math.Abs(Steady.Through(Clip.Definition, Settings.Of(Clip.Definition.Parameters, (Clip.Soft, soft)), [Steady.Level(48000, level)])[0][40000] - expected)).Max();
    }

    private static double FoldedDb()
    {
        var output = Steady.Through(Clip.Definition, Settings.Of(Clip.Definition.Parameters), [Signals.Sine(55200, 5000, Steady.Amplitude(1))])[0].AsSpan(48000, 4800).ToArray();
        var worst = Enumerable.Range(1, 23).Where(k => k % 5 != 0).Max(k => Spectrum.AmplitudeAt(output, 1000 * k));
        return Spectrum.Decibels(worst / Spectrum.AmplitudeAt(output, 5000));
    }
}
