using System.Diagnostics;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Laws;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>Signals that trip filters up, at every rate.</summary>
internal static class RobustChecks
{
    public const string Note = "Every processor at its default, least and greatest settings and at random ones, mono and stereo, with and without a key. Signals: silence, direct current, a full-scale square wave, a single impulse, noise, noise of 10⁻⁴⁰ (the smallest that 32-bit float files hold) and of 10⁻³¹⁰ (what only a 64-bit float file could hold), and a burst that rings on into silence. The time is that of the slowest signal over that of noise or of a drum hit with the whole of hold and release after it, whichever takes longer; the best of several runs each; it leaves out the noise of 10⁻³¹⁰, on which the machine's own arithmetic is slow: `width`, which does little else, takes up to four times as long on it.";

    private const int Frames = 3000;
    private const int TimedFrames = 12000;
    private const int LeastRounds = 4;
    private const int MostRounds = 60;
    private const double Sure = 1.5;

    // Sixty rounds of a processor that does little are over while the machine is still busy with something else.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    public static IEnumerable<Check> All() =>
    [
        .. Catalogue.Newest.SelectMany(d => new[]
        {
            new Check("robust", $"`{d.Key}`: samples that are not a number or infinite, 8, 44.1, 192 and 384 kHz", "own bar", Bar.Exactly(0, "samples"), () => NotFinite(d)),
            new Check("robust", $"`{d.Key}`: time of the slowest signal over that of playing", "own bar", Bar.AtMost(2, "times", 0, floor: 2), () => SlowDown(d)) { RunsAlone = true },
        }),
    ];

    private static IEnumerable<double[]> Tricky(int frames) =>
    [
        new double[frames],
        [.. Enumerable.Repeat(1.0, frames)],
        [.. Enumerable.Range(0, frames).Select(n => n / 50 % 2 == 0 ? 1.0 : -1)],
        Signals.Impulse(frames, 100),
        Signals.Noise(frames, 10),
        Signals.Noise(frames, 11, 1e-40),
        [.. Signals.Noise(frames, 12).Select((x, n) => n < 500 ? x : 0)],
    ];

    private static double NotFinite(ProcessorDefinition definition) =>
        (from rate in new[] { 8000, 44100, 192000, 384000 }
         from one in LawCase.All(definition, randomCount: 1, rate, frames: Frames)
         from signal in Tricky(Frames).Append(Signals.Noise(Frames, 11, 1e-310))
         select one.Run([signal, signal]).Sum(channel => channel.Count(x => !double.IsFinite(x)))).Sum();

    // Another program may disturb some rounds, and a real fault slows every one down: the best round of each signal counts.
    private static double SlowDown(ProcessorDefinition definition)
    {
        var worst = 0.0;
        foreach (var one in LawCase.All(definition, randomCount: 1, channels: [2], frames: TimedFrames))
        {
            double[][] playing = [Signals.Noise(TimedFrames, 13), Signals.Hits(TimedFrames, TimedFrames, 300, 14)];
            double[][] tricky = [.. Tricky(TimedFrames)];
            var usual = new double[playing.Length];
            var best = new double[tricky.Length];
            Array.Fill(usual, double.PositiveInfinity);
            Array.Fill(best, double.PositiveInfinity);
            var start = Stopwatch.GetTimestamp();
            for (var round = 0; round < LeastRounds || (best.Max() > Sure * usual.Max() && (round < MostRounds || Stopwatch.GetElapsedTime(start) < Patience)); round++)
            {
                for (var i = 0; i < playing.Length; i++)
                {
                    usual[i] = Math.Min(usual[i], Seconds(one, playing[i]));
                }

                for (var i = 0; i < tricky.Length; i++)
                {
                    best[i] = Math.Min(best[i], Seconds(one, tricky[i]));
                }
            }

            worst = Math.Max(worst, best.Max() / usual.Max());
        }

        return worst;
    }

    private static double Seconds(LawCase one, double[] signal)
    {
        var processor = one.Create();
        var buffers = Enumerable.Range(0, Math.Max(one.Inputs, one.Outputs)).Select(_ => (double[])signal.Clone()).ToArray();
        var key = Enumerable.Range(0, one.KeyChannels).Select(_ => signal).ToArray();
        var start = Stopwatch.GetTimestamp();
        for (var frame = 0; frame < signal.Length; frame += 480)
        {
            var frames = Math.Min(480, signal.Length - frame);
            processor.Process(new AudioBlock(buffers, frame, frames), key.Length == 0 ? AudioBlock.None : new AudioBlock(key, frame, frames));
        }

        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }
}
