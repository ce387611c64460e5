using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Dynamics;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>The gate as a machine with two levels, and on hits.</summary>
internal static class GateChecks
{
    public const string Note = "Open at −30 dBFS, close at −36, range −40 dB, attack 2 ms, hold 20 ms, release 100 ms, 48 kHz, unless a line says otherwise.";

    private const double OpenDb = -30;
    private const double CloseDb = -36;
    private const double RangeDb = -40;
    private const int Attack = 96;
    private const int Hold = 960;
    private const int Release = 4800;
    private const string Machine = "Schmitt trigger with hold, textbook";

    public static IEnumerable<Check> All() =>
    [
        new("gate", "levels that stand or waver between close and open, 60 of them: openings and closings", Machine, Bar.Exactly(0, "moves"), Chatter),
        new("gate", "swept bursts, 40 Hz to 12 kHz, one opening each: openings too many or too few", "Terrell, Reiss and Sandler, EURASIP JASP 2010, 465417", Bar.Exactly(0, "moves"), () => SweptBursts(opens: true)),
        new("gate", "the same, closings", "Terrell, Reiss and Sandler, EURASIP JASP 2010, 465417", Bar.Exactly(0, "moves"), () => SweptBursts(opens: false)),
        new("gate", "opens at the open level, and not 0.001 dB below: wrong answers", Machine, Bar.Exactly(0, "answers"), () => (GainDb(Set(), Steady.Level(4800, OpenDb - 0.001)).Any(g => g > RangeDb + 1e-9) ? 1 : 0) + (GainDb(Set(), Steady.Level(4800, OpenDb))[Steady.RiseFrames + Attack] < -1e-9 ? 1 : 0)),
        .. new[] { 44100, 48000, 96000 }.Select(rate => new Check("gate", $"sines of 6, 8, 12, 16 and 19.2 kHz at eight phases, {rate} Hz, a gate at −6 dBFS: wrong answers at −5.95 and −6.05", "common practice: a level is that of the wave, not of its samples", Bar.Exactly(0, "answers"), () => WrongPeaks(rate))),
        new("gate", "attack: frames to fully open", Machine, Bar.Exactly(Attack, "frames"), () => Array.FindIndex(GainDb(Set(), Hit), g => g == 0) - Steady.FirstAtLeast(Hit, OpenDb)),
        new("gate", "hold: frames fully open after the last loud one", Machine, Bar.Exactly(Hold, "frames"), () => Array.FindLastIndex(Closing(), g => g == 0) - LastLoud),
        new("gate", "release: frames from there to the range", Machine, Bar.Exactly(Release, "frames"), () => Array.FindIndex(Closing(), 3010, g => g <= RangeDb + 1e-9) - LastLoud - Hold),
        new("gate", "release: worst distance from a straight line in dB", Machine, Bar.AtMost(1e-6, "dB", 6), () => Enumerable.Range(1, Release).Max(i => Math.Abs(Closing()[LastLoud + Hold + i] - (RangeDb * i / Release)))),
        .. new[] { -120, -60, -14, -0.5 }.Select(range => new Check("gate", $"range {range.ToString(System.Globalization.CultureInfo.InvariantCulture).Replace('-', '−')} dB: gain while closed, distance", Machine, Bar.AtMost(1e-6, "dB", 6), () => GainDb(Set((Gate.Range, range)), Steady.Level(1000, -80)).Max(g => Math.Abs(g - range)))),
        new("gate", "look-ahead 2 ms: peak of the hit that passes, worst of eight", "own bar", Bar.AtLeast(99.9, "%", 2), () => Beat().Hits.Min(h => 100 * Beat().Output[h..(h + 240)].Max(Math.Abs) / Beat().Input[h..(h + 240)].Max(Math.Abs))),
        new("gate", "look-ahead 2 ms: level of the hit's first 5 ms, worst distance", "own bar", Bar.AtMost(0.1, "dB", 4), () => Beat().Hits.Max(h => Math.Abs(10 * Math.Log10(Beat().Output[h..(h + 240)].Sum(y => y * y) / Beat().Input[h..(h + 240)].Sum(x => x * x))))),
        new("gate", "ghost notes below the open level: distance of their gain from the range, worst", Machine, Bar.AtMost(1e-6, "dB", 6), () => Beat().Hits.Max(h => Enumerable.Range(h + 12000, 480).Where(n => Math.Abs(Beat().Input[n]) > 1e-6).Max(n => Math.Abs(Spectrum.Decibels(Math.Abs(Beat().Output[n] / Beat().Input[n])) - RangeDb)))),
    ];

    private static double Chatter()
    {
        var moves = 0;
        for (var step = 0; step < 20; step++)
        {
            var level = CloseDb + ((OpenDb - CloseDb) * (step + 0.5) / 20);
            foreach (var start in new[] { OpenDb, -80 })
            {
                moves += Moves(GainDb(Set(), Steady.Steps((1000, start), (9600, level))), 1000);
                moves += Moves(GainDb(Set(), Steady.Steps([(1000, start), .. Enumerable.Repeat(new[] { (700, level), (Hold - 20, CloseDb - 10), (300, CloseDb + 0.01) }, 6).SelectMany(s => s)])), 1000);
                moves += Moves(GainDb(Set(), [.. Steady.Steps((1000, start)), .. Signals.Sine(9600, 90, Steady.Amplitude(level))]), 1000);
            }
        }

        return moves;
    }

    private static int Moves(double[] gain, int from) => Enumerable.Range(from, gain.Length - from).Count(n => Math.Abs(gain[n] - gain[from - 1]) > 0.01);

    private static double SweptBursts(bool opens)
    {
        var input = new double[6 * 48000];
        var bursts = 0;
        for (var freq = 40.0; freq < 12000; freq *= 1.5, bursts++)
        {
            var start = 2000 + (bursts * 16000);
            for (var i = 0; i < 4000; i++)
            {
                input[start + i] = Math.Exp(-i / 1200.0) * Math.Sin((2 * Math.PI * freq * i / 48000) + 0.3);
            }
        }

        var gain = GainDb(Set((Gate.Hold, 15.0), (Gate.Release, 60.0)), Array.ConvertAll(input, x => x == 0 ? 1e-9 : x));
        var count = Enumerable.Range(1, gain.Length - 1).Count(n => opens ? gain[n] > -0.001 && gain[n - 1] <= -0.001 : gain[n] < RangeDb + 0.001 && gain[n - 1] >= RangeDb + 0.001);
        return Math.Abs(count - bursts);
    }

    private static double[] Hit { get; } = Steady.Steps((1000, -80), (2000, -10), (Hold + Release + 100, CloseDb - 2));

    private static int LastLoud { get; } = Steady.LastAtLeast(Hit, CloseDb);

    private static double[] Closing() => LazyClosing.Value;

    private static double WrongPeaks(int rate)
    {
        bool Opens(double freqHz, double phase, double db)
        {
            var sine = Signals.Sine(9600, freqHz, Steady.Amplitude(db), phase, rate).Select((x, n) => x * Math.Min(1, n / 4800.0)).ToArray();
            return Run.Through(Gate.Definition, Set((Gate.Open, -6.0)), [sine], sampleRate: rate)[0].Skip(8000).Max(Math.Abs) > 0.1;
        }

        return (from freqHz in new double[] { 6000, 8000, 12000, 16000, 19200 }
                from step in Enumerable.Range(0, 8)
                let phase = step * Math.PI / 8
                select (Opens(freqHz, phase, -5.95) ? 0 : 1) + (Opens(freqHz, phase, -6.05) ? 1 : 0)).Sum();
    }

    private static readonly Lazy<double[]> LazyClosing = new(() => GainDb(Set(), Hit));

    private static (double[] Input, double[] Output, int[] Hits) Beat() => LazyBeat.Value;

    // A backbeat every half second, a ghost note between, spill all the time.
    private static readonly Lazy<(double[] Input, double[] Output, int[] Hits)> LazyBeat = new(() =>
    {
        var input = Signals.Noise(4 * 48000, 5, Steady.Amplitude(-50));
        var noise = Signals.Noise(input.Length, 6);
        var hits = Enumerable.Range(0, 8).Select(i => 1000 + (i * 24000)).ToArray();
        foreach (var hit in hits)
        {
            for (var i = 0; i < 9600; i++)
            {
                var attack = Math.Min(1, (i + 1) / 8.0);
                input[hit + i] += attack * ((0.5 * Math.Exp(-i / 900.0) * noise[hit + i]) + (0.3 * Math.Exp(-i / 1500.0) * Math.Sin(2 * Math.PI * 198 * i / 48000)));
                input[hit + 12000 + i] += Steady.Amplitude(-40) * attack * Math.Exp(-i / 900.0) * noise[hit + 12000 + i];
            }
        }

        var gate = Gate.Definition.Create(Set((Gate.Ahead, 2.0)), new ProcessorContext(new AudioFormat(48000, 1), input.Length));
        return (input, Run.Through(gate, [input], 1, extraFrames: gate.LatencyFrames)[0][gate.LatencyFrames..], hits);
    });

    private static double[] GainDb(Settings settings, double[] input) => Steady.GainDb(Gate.Definition, settings, input);

    private static Settings Set(params (Parameter, object)[] more) => Settings.Of(
        Gate.Definition.Parameters,
        [
            (Gate.Open, OpenDb), (Gate.Close, CloseDb), (Gate.Range, RangeDb), (Gate.Attack, 2.0), (Gate.Hold, 20.0), (Gate.Release, 100.0),
            .. more,
        ]);
}
