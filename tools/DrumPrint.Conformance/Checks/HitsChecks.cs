using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Dynamics;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>Beginnings and bodies of hits: the same for loud and soft ones, and nothing for what stands still.</summary>
internal static class HitsChecks
{
    public const string Note = "Gains are read on a steady layer whose key the signal is.";

    private const string Lines = "two lines under and over the level, as documented";

    public static IEnumerable<Check> All() =>
    [
        new("hits", "a hit, the same 30 dB softer, the same again: worst difference of the gains, beginnings +9 dB", Lines, Bar.AtMost(0.2, "dB", 4), () => WorstDifferenceDb(9, 0)),
        new("hits", "the same, bodies −15 dB", Lines, Bar.AtMost(0.2, "dB", 4), () => WorstDifferenceDb(0, -15)),
        new("hits", "nothing asked for: samples that are changed", "own bar", Bar.Exactly(0, "samples"), Changed),
        new("hits", "steady sines 50 Hz to 5 kHz, beginnings and bodies +12 dB: what is there beside the sine", "THD+N as IEC 60268-3 reckons it (from memory)", Bar.AtMost(-100, "dB", 0, floor: -120), WorstRestDb),
        new("hits", "a level that begins and stands, 25 ms: worst distance from the formula from 5 to 200 ms", Lines, Bar.AtMost(0.25, "dB", 2), WorstFormulaDb),
        new("hits", "no faster than its look-ahead of 1.5 ms: fastest move for 12 dB, in a frame", "cubic B-spline of 69 frames, as documented", Bar.AtMost(0.5, "dB", 2), FastestMoveDb),
    ];

    private static double WorstDifferenceDb(double begin, double body)
    {
        double[] hit = [.. Enumerable.Range(0, 12000).Select(n => 0.8 * Math.Exp(-n / 1200.0) * Math.Cos(2 * Math.PI * 200 * n / Run.SampleRate))];
        var gain = GainDb([.. new double[2000], .. hit, .. hit.Select(x => x * Steady.Amplitude(-30)), .. hit], (Hits.Begin, begin), (Hits.Body, body));
        return Enumerable.Range(2000, 9000).Max(n => Math.Max(Math.Abs(gain[n] - gain[n + 12000]), Math.Abs(gain[n] - gain[n + 24000])));
    }

    private static double Changed()
    {
        var input = Signals.Hits(24000, 6000, 900, seed: 5);
        return Steady.Through(Hits.Definition, Settings.Of(Hits.Definition.Parameters), [input])[0].Where((y, n) => y != input[n]).Count();
    }

    private static double WorstRestDb() => new[] { 50, 187.5, 1000, 5000 }.Max(freq =>
    {
        var input = Signals.Sine(145000, freq, 0.5, 0.3);
        var settings = Settings.Of(Hits.Definition.Parameters, (Hits.Begin, 12.0), (Hits.Body, 12.0));
        var output = Steady.Through(Hits.Definition, settings, [input])[0].AsSpan(96000, 48000).ToArray();
        var level = Spectrum.AmplitudeAt(output, freq);
        return Spectrum.Decibels(Math.Sqrt(2 * output.Zip(input[96000..], (y, x) => Math.Pow(y - (x * level / 0.5), 2)).Average()) / level);
    });

    private static double WorstFormulaDb()
    {
        var least = Steady.Amplitude(-12);
        var gain = GainDb(Steady.Steps((48000, -80), (24000, -10)), (Hits.Begin, 12.0));
        var tau = -25 / Math.Log((1 - Math.Sqrt(least)) / (1 - least));
        return Enumerable.Range(5, 196).Max(ms => Math.Abs(gain[48000 + Steady.Frames(ms)] + Spectrum.Decibels(1 - ((1 - least) * Math.Exp(-(ms + 0.71) / tau)))));
    }

    private static double FastestMoveDb()
    {
        var gain = GainDb(Steady.Steps((48000, -80), (24000, -10)), (Hits.Begin, 12.0));
        return Enumerable.Range(40000, 30000).Max(n => Math.Abs(gain[n + 1] - gain[n]));
    }

    private static double[] GainDb(double[] key, params (Parameter, object)[] values) =>
        Steady.GainDb(Hits.Definition, Settings.Of(Hits.Definition.Parameters, values), [.. Enumerable.Repeat(1.0, key.Length)], key);
}
