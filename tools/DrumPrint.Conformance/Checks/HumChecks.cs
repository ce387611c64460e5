using System.Globalization;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>Hum that is known, in rooms and under drums.</summary>
internal static class HumChecks
{
    public const string Note = "Sixteen seconds, of which the first and the last one do not count. Twelve harmonics from −46 dBFS down, the mains wander by 0.01 Hz to either side. All that is done to the drum counts as hum that is left. Drums play twice and four times a second.";

    private const string Source = "own bar; hum added to known sound";

    public static IEnumerable<Check> All() =>
    [
        Lowered("noise alone", 48000, 50.03, 35),
        Lowered("noise alone", 44100, 59.95, 35),
        Lowered("noise alone", 96000, 49.92, 30),
        Lowered("room with kick and snare", 48000, 50.03, 25),
        Lowered("snare", 48000, 50.03, 15),
        Lowered("snare", 44100, 60, 15),
        Lowered("kick at 52 Hz", 48000, 49.92, 20),
        Lowered("kick at 50 Hz", 48000, 50.03, 10),
        .. HumScene.Drums.Keys.Select(drum => new Check("hum", $"no hum, {drum}: samples that are changed", "own bar", Bar.Exactly(0, "samples"), () => Changed(drum))),
        new("hum", "a sine of 50 Hz that decays by 60 dB in 1 s, no hum: total harmonic distortion before less after", "IEC 60268-3, own bar", Bar.AtMost(0.0001, "%", 4), Distortion),
    ];

    private static Check Lowered(string drum, int rate, double freqHz, double leastDb) => new(
        "hum",
        string.Create(CultureInfo.InvariantCulture, $"{drum}, {rate} Hz, mains at {freqHz:0.00} Hz: hum goes down by"),
        Source,
        Bar.AtLeast(leastDb, "dB", 1),
        () =>
        {
            var scene = new HumScene(rate, HumScene.Drums[drum](rate), HumScene.HumOf(rate, freqHz, -46));
            return scene.LoweredDb(scene.Through(Hum.Freq.To(freqHz > 55 ? 60 : 50)));
        });

    private static double Changed(string drum)
    {
        var scene = Without(drum);
        return scene.Through().Zip(scene.Own, (a, b) => a == b ? 0 : 1).Sum();
    }

    private static double Distortion()
    {
        var scene = Without("kick at 50 Hz that rings for 1 s");
        return 100 * Math.Abs(Harmonics(scene.Through()) - Harmonics(scene.Own));
    }

    private static HumScene Without(string drum) => new(48000, HumScene.Drums[drum](48000), new double[(int)(HumScene.Seconds * 48000)]);

    // A tenth of a second, five periods, from the middle of the eighth stroke on.
    private static double Harmonics(double[] samples)
    {
        var stretch = samples.AsSpan(4 * 48000, 4800).ToArray();
        var harmonics = Enumerable.Range(2, 9).Sum(h => Math.Pow(Spectrum.AmplitudeAt(stretch, 50 * h), 2));
        return Math.Sqrt(harmonics) / Spectrum.AmplitudeAt(stretch, 50);
    }
}
