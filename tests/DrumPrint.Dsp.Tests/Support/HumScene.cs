using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>A microphone of a drum whose hum is known; invented.</summary>
/// <param name="SampleRate">Hertz.</param>
/// <param name="Own">The drum and the room's noise.</param>
/// <param name="Mains">The hum.</param>
public sealed record HumScene(int SampleRate, double[] Own, double[] Mains)
{
    public const double Seconds = 16;

    private const double NoiseDb = -84;

    /// <summary>Drums by what they are, for a rate.</summary>
    public static IReadOnlyDictionary<string, Func<int, double[]>> Drums { get; } = new Dictionary<string, Func<int, double[]>>
    {
        ["noise alone"] = Floor,
        ["room with kick and snare"] = Room,
        ["snare"] = Snare,
        ["kick at 50 Hz"] = rate => Kick(rate),
        ["kick at 52 Hz"] = rate => Kick(rate, 52),
        ["kick at 50 Hz that rings for 1 s"] = rate => Kick(rate, 50, 0.15),
        ["tom at 100 Hz that rings for 3 s"] = rate => Kick(rate, 100, 0.4),
    };

    /// <summary>What the microphone hears.</summary>
    public double[] Mix => [.. Own.Zip(Mains, (a, b) => a + b)];

    /// <summary>One note twice a second, a little uneven, without its stick.</summary>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="freqHz">Of the note.</param>
    /// <param name="decayS">After how long it has fallen by 8.7 dB.</param>
    /// <param name="everyS">From one note to the next.</param>
    /// <param name="unevenS">How far a note may be early or late.</param>
    /// <param name="seed">Which notes are early or late, and loud.</param>
    public static double[] Kick(int sampleRate, double freqHz = 50, double decayS = 0.05, double everyS = 0.5, double unevenS = 0.008, ulong seed = 5)
    {
        var samples = Floor(sampleRate);
        var noise = Signals.Noise(64, seed);
        for (var hit = 0; hit * everyS < Seconds; hit++)
        {
            var start = (int)((0.35 + (everyS * hit) + (unevenS * noise[hit % 64])) * sampleRate);
            var level = 0.7 + (0.2 * noise[(hit + 20) % 64]);
            for (var n = 0; n < sampleRate && start + n < samples.Length; n++)
            {
                var t = (double)n / sampleRate;
                samples[start + n] += level * Math.Exp(-t / decayS) * (1 - Math.Exp(-t / 0.001)) * Math.Sin(2 * Math.PI * freqHz * t);
            }
        }

        return samples;
    }

    /// <summary>A kick and a snare in turn in a room that rings, half a second apart.</summary>
    public static double[] Room(int sampleRate)
    {
        var samples = Kick(sampleRate, 62, 0.12, everyS: 1.046);
        var noise = Signals.Noise(samples.Length, 13);
        for (var hit = 0; hit * 1.046 < Seconds; hit++)
        {
            var start = (int)((0.823 + (1.046 * hit)) * sampleRate);
            for (var n = 0; n < sampleRate && start + n < samples.Length; n++)
            {
                var t = (double)n / sampleRate;
                samples[start + n] += 0.3 * ((Math.Exp(-t / 0.08) * noise[n]) + (Math.Exp(-t / 0.1) * Math.Sin(2 * Math.PI * 190 * t)));
            }
        }

        return samples;
    }

    /// <summary>A snare: bursts of noise, four a second.</summary>
    public static double[] Snare(int sampleRate)
    {
        var samples = Floor(sampleRate);
        var hits = Signals.Hits(samples.Length, sampleRate / 4, 0.04 * sampleRate, seed: 8, level: 0.5);
        return [.. samples.Zip(hits, (a, b) => a + b)];
    }

    /// <summary>The room's noise alone.</summary>
    public static double[] Floor(int sampleRate) => Signals.Noise((int)(Seconds * sampleRate), 3, Math.Pow(10, NoiseDb / 20));

    /// <summary>Hum whose harmonics fall by 5 dB each, the odd ones louder, and whose frequency wanders slowly.</summary>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="freqHz">In the middle.</param>
    /// <param name="levelDb">Of the first harmonic.</param>
    /// <param name="harmonics">How many.</param>
    /// <param name="wanderHz">How far the frequency goes to either side, once in 40 s.</param>
    public static double[] HumOf(int sampleRate, double freqHz, double levelDb, int harmonics = 12, double wanderHz = 0.01)
    {
        var samples = new double[(int)(Seconds * sampleRate)];
        var phases = Signals.Noise(harmonics + 1, 11);
        for (var h = 1; h <= harmonics; h++)
        {
            var level = Math.Pow(10, (levelDb - (4 * (h - 1)) - (h % 2 == 0 ? 8 : 0)) / 20);
            for (var n = 0; n < samples.Length; n++)
            {
                var t = (double)n / sampleRate;
                var turns = (freqHz * t) + (wanderHz * 40 / (2 * Math.PI) * Math.Sin(2 * Math.PI * t / 40));
                samples[n] += level * Math.Sin(2 * Math.PI * ((h * turns) + phases[h]));
            }
        }

        return samples;
    }

    /// <summary>The drum after <c>hum</c>, in time.</summary>
    public double[] Through(params (Parameter, object)[] settings) => Through(Mix, settings);

    /// <summary>How far the hum has gone down, in dB, without the ends, where less is known. All that was done to the drum counts as hum.</summary>
    public double LoweredDb(double[] output)
    {
        var (from, to) = (SampleRate, Mains.Length - SampleRate);
        return 10 * Math.Log10(Mains[from..to].Sum(x => x * x) / output.Zip(Own, (a, b) => (a - b) * (a - b)).Take(to).Skip(from).Sum());
    }

    private double[] Through(double[] input, (Parameter, object)[] settings)
    {
        var values = Settings.Of(Hum.Definition.Parameters, settings);
        var processor = Hum.Definition.Create(values, new ProcessorContext(new AudioFormat(SampleRate, 1), input.Length));
        return Run.Through(processor, [input], 1, 480, processor.LatencyFrames)[0][processor.LatencyFrames..];
    }
}
