using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Dynamics;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>What the compressor's detector reads of two sides, and how a reduction comes back: hold and second release.</summary>
internal static class CompressLate
{
    private const double FullDb = -15;
    private const string Steps = "one-pole steps: Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. (7)";

    public static IEnumerable<Check> All() =>
    [
        Link("larger", 0, "level of one side of two: the louder"),
        Link("sum", -3.0103, "the same, link by sum"),
        Link("mid", -6.0206, "the same, link by mid"),
        new("compress", "hold 50 ms, both topologies: worst distance from the same release 50 ms later", "definition", Bar.AtMost(0.02, "dB", 4), () => new[] { "feed_forward", "feedback" }.Max(HoldDb)),
        new("compress", "second release 1 s, fills in 500 ms; turned down by 15 dB for 50 ms to 2 s: worst distance from R · (1 − e^(−T / 500 ms)) · e^(−t / 1 s)", Steps, Bar.AtMost(DynamicsTolerance.StoreDb, "dB", 3), () => new[] { 50.0, 400, 2000 }.Max(StoreDb)),
        new("compress", "release 60 ms beside a second one of 2 s: a hit of 10 ms comes back by 63 % in", Steps, Bar.Near(60, 2, "ms", 1), ShortHitMs),
    ];

    private static Check Link(string by, double heardDb, string claim) =>
        new("compress", $"{claim} counts, −6 dBFS, 5:1 at −30 dB: level out", "curve: Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. (4); link by its definition", Bar.Near(Math.Round(-6 - ((24 + heardDb) * 0.8), 3), 0.005, "dBFS", 3), () =>
        {
            var settings = Settings.Of(Compress.Definition.Parameters, (Compress.LinkBy, by), (Compress.Threshold, -30.0), (Compress.Ratio, 5.0), (Compress.Knee, 0.0));
            return Spectrum.Decibels(Steady.Through(Compress.Definition, settings, [Steady.Level(48000, -6), new double[48000]])[0][40000]);
        });

    private static double HoldDb(string topology)
    {
        const int End = 1000 + 9600;
        var input = Steady.Steps((1000, -40), (9600, 0), (24000, -40));
        (Parameter, object)[] dials = [(Compress.Topology, topology), (Compress.Attack, 1.0), (Compress.Release, 80.0)];
        var (plain, held) = (GainDb(input, dials), GainDb(input, [.. dials, (Compress.Hold, 50.0)]));
        return Enumerable.Range(End + 20, 20000).Max(n => Math.Abs(plain[n] - held[n + 2400]));
    }

    private static double StoreDb(double lastedMs)
    {
        var lasted = Steady.Frames(lastedMs);
        var gain = GainDb(Steady.Steps((1000, -40), (lasted, 0), (96000, -40)), (Compress.Attack, 0.0), (Compress.Release, 0.0), (Compress.SlowRelease, 1000.0), (Compress.SlowAfter, 500.0));
        return new[] { 20.0, 300, 1000, 1900 }.Max(ms => Math.Abs((FullDb * (1 - Math.Exp(-lastedMs / 500)) * Math.Exp(-ms / 1000)) - gain[1000 + lasted + Steady.Frames(ms)]));
    }

    private static double ShortHitMs()
    {
        var hit = Steady.Frames(10);
        var gain = GainDb(Steady.Steps((1000, -40), (hit, 0), (48000, -40)), (Compress.Attack, 0.1), (Compress.Release, 60.0), (Compress.SlowRelease, 2000.0));
        return Steady.TimeMs(gain, 1000 + hit, g => g >= FullDb / Math.E);
    }

    private static double[] GainDb(double[] input, params (Parameter, object)[] values) => Steady.GainDb(
        Compress.Definition,
        Settings.Of(Compress.Definition.Parameters, [(Compress.Threshold, -20.0), (Compress.Ratio, 4.0), (Compress.Knee, 0.0), .. values]),
        input);
}
