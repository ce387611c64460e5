namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Signals whose wave stands far above full scale, most of it between the samples.</summary>
internal static class HotSignals
{
    public static IReadOnlyDictionary<string, double[]> All { get; } = new Dictionary<string, double[]>
    {
        ["white noise"] = Signals.Noise(4000, 21, 3),
        ["noise under 0.4 of the rate"] = TruePeakSignals.BandLimited(Signals.Noise(4000, 22, 4)),
        ["hits"] = Signals.Hits(6000, 1500, 300, seed: 23, level: 2),
        ["a sinc half a frame off"] = Sinc(2400, 0.5, 1, 3),
        ["sincs of 0.8 of the band"] = [.. Sinc(2400, 0.31, 0.8, 4).Zip(Sinc(2400, 700.77, 0.8, -2), (a, b) => a + b)],
        ["a burst of signs as a sinc has them"] = Signs(2400, 30),
        ["the same, long"] = Signs(2400, 200),
        ["a sine at a quarter of the rate"] = Signals.Sine(3000, 12000, 1.8, Math.PI / 4),
        ["a sine at 0.47 of the rate"] = Signals.Sine(3000, 0.47 * Run.SampleRate, 1.5, 0.3),
        ["clicks"] = [.. Enumerable.Range(0, 3000).Select(n => n % 777 == 5 ? 3.0 : n % 777 == 6 ? -2.5 : 0)],
        ["a step"] = [.. Enumerable.Range(0, 2000).Select(n => n < 700 ? 0 : 1.7)],
    };

    private static double[] Sinc(int frames, double offset, double band, double level) => [.. Enumerable.Range(0, frames).Select(n =>
    {
        var x = Math.PI * band * (n - (frames / 2) - offset);
        return level * (x == 0 ? 1 : Math.Sin(x) / x);
    })];

    private static double[] Signs(int frames, int reach)
    {
        var signal = new double[frames];
        for (var k = -reach; k < reach; k++)
        {
            signal[(frames / 2) + k] = (k & 1) == 0 == k >= 0 ? 1 : -1;
        }

        return signal;
    }
}
