using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>A microphone whose own sound and whose spill are known, and the key that hears the spill better.</summary>
/// <param name="Own">What the microphone is there for.</param>
/// <param name="Spill">What else it hears.</param>
/// <param name="Key">What stands nearer to the spill; one array for each side.</param>
/// <param name="Hits">First frames of the own hits.</param>
internal sealed record SpillScene(double[] Own, double[] Spill, double[][] Key, int[] Hits)
{
    public const int Seconds = 8;
    private const double GhostDb = -25;
    private const int HitMs = 60;

    public int SampleRate { get; init; } = Run.SampleRate;

    /// <summary>What the microphone hears.</summary>
    public double[] Mix => [.. Own.Zip(Spill, (o, s) => o + s)];

    /// <summary>The scenes, by name.</summary>
    public static IReadOnlyDictionary<string, Func<SpillScene>> All { get; } = new Dictionary<string, Func<SpillScene>>
    {
        ["snare with ghosts, tom 12 dB down 2 ms later, heard 20 dB down by the tom's"] = () => SnareAndTom(2, -12, -20),
        ["the same, tom 5 ms later"] = () => SnareAndTom(5, -12, -20),
        ["the same, tom 5 ms earlier than in its own"] = () => SnareAndTom(-5, -12, -20),
        ["snare with ghosts, kick 12 dB down, also on every backbeat"] = () => Of(Snares, Kicks, 3, -12, -15),
        ["kick, snare 12 dB down"] = () => Of(Kicks, Snares, 1.5, -12, -18),
        ["tom, snare 12 dB down in a room"] = () => InRoom(Of(Toms, Snares, 1.5, -12, -18)),
        ["bursts of noise, others 10 dB down 3 ms later"] = () => Of(Bursts, OtherBursts, 3, -10, -20),
        ["snare with ghosts, tom and kick 12 dB down, each on a side of the key"] = SnareAndTwo,
    };

    /// <summary>A snare's microphone with a tom in it.</summary>
    public static SpillScene SnareAndTom(double ms, double spillDb, double keyHearsDb, int sampleRate = Run.SampleRate) => Of(Snares, Toms, ms, spillDb, keyHearsDb, sampleRate);

    /// <summary>What comes out, in time.</summary>
    public double[] Through(params (Parameters.Parameter, object)[] settings) =>
        WholeSignal.Through([Mix], SampleRate, global::DrumPrint.Dsp.Processors.Spill.Definition.With(settings) with { Key = Key })[0][..Own.Length];

    /// <summary>The hit whose level differs most from what it was without spill, of those from one level to another under the loudest; in
    /// decibels. Hits with a spill less than so far under them do not count.</summary>
    public double WorstHitDb(double[] output, double fromDb, double toDb, double clearDb)
    {
        var frames = HitMs * SampleRate / 1000;
        double Level(double[] x, int at) => 10 * Math.Log10(x.AsSpan(at, frames).ToArray().Sum(v => v * v));
        var loudest = Hits.Max(at => Level(Own, at));
        return Hits.Where(at => Level(Own, at) - loudest >= fromDb && Level(Own, at) - loudest <= toDb && Level(Spill, at) <= Level(Own, at) - clearDb)
            .Select(at => Level(output, at) - Level(Own, at)).DefaultIfEmpty().MaxBy(Math.Abs);
    }

    /// <summary>A scene whose spill is delayed by so many milliseconds against the key.</summary>
    private static SpillScene Of(Func<int, (double[] Sound, int[] Hits)> own, Func<int, (double[] Sound, int[] Hits)> other, double ms, double spillDb, double keyHearsDb, int sampleRate = Run.SampleRate)
    {
        var (mine, hits) = own(sampleRate);
        var (theirs, _) = other(sampleRate);
        var late = Math.Max(0, -ms);
        var key = Delayed(theirs, late, 0, sampleRate).Zip(Delayed(mine, Math.Abs(ms), keyHearsDb, sampleRate), (k, o) => k + o).ToArray();
        return new SpillScene(mine, Delayed(theirs, Math.Max(0, ms), spillDb, sampleRate), [key], hits) { SampleRate = sampleRate };
    }

    private static SpillScene SnareAndTwo()
    {
        var (tom, kick) = (Of(Snares, Toms, 2, -12, -18), Of(Snares, Kicks, 3, -12, -20));
        return tom with { Spill = [.. tom.Spill.Zip(kick.Spill, (a, b) => a + b)], Key = [tom.Key[0], kick.Key[0]] };
    }

    // Reflections for 0.3 s, 6 dB under the direct spill in all.
    private static SpillScene InRoom(SpillScene scene)
    {
        var noise = new CounterNoise(99);
        var taps = Enumerable.Range(1, 390).Select(i => (At: 37 * i, Gain: noise.Bipolar(i) * Math.Pow(10, -3.0 * i / 390))).ToArray();
        var level = Math.Pow(10, -6 / 20.0) / Math.Sqrt(taps.Sum(t => t.Gain * t.Gain));
        var spill = (double[])scene.Spill.Clone();
        foreach (var (at, gain) in taps)
        {
            for (var n = at; n < spill.Length; n++)
            {
                spill[n] += level * gain * scene.Spill[n - at];
            }
        }

        return scene with { Spill = spill };
    }

    private static double[] Delayed(double[] x, double ms, double db, int sampleRate)
    {
        var (frames, gain) = ((int)Math.Round(ms * sampleRate / 1000), Math.Pow(10, db / 20));
        return [.. x.Select((_, n) => n < frames ? 0 : gain * x[n - frames])];
    }

    private static (double[] Sound, int[] Hits) Snares(int rate)
    {
        (double At, double Level)[] hits = [.. Every(0.5, 1).Select(t => (t, 0.8)), .. Every(0.875, 1).Select(t => (t, 0.8 * Math.Pow(10, GhostDb / 20)))];
        return Played(rate, hits, [(190, 0.08), (330, 0.05), (470, 0.03)], 0.35, 0.06, 1);
    }

    private static (double[] Sound, int[] Hits) Kicks(int rate) => Played(rate, [.. Every(0.02, 0.5).Select((t, i) => (t, i % 2 == 0 ? 0.9 : 0.7))], [(58, 0.12), (110, 0.05)], 0.15, 0.004, 1000);

    private static (double[] Sound, int[] Hits) Toms(int rate) => Played(rate, [.. Every(0.75, 1.5).Select(t => (t, 0.8))], [(105, 0.25), (170, 0.12), (250, 0.08)], 0.1, 0.01, 2000);

    private static (double[] Sound, int[] Hits) Bursts(int rate) => Played(rate, [.. Every(0.1, 0.7).Select(t => (t, 0.8))], [], 0.6, 0.05, 3000);

    private static (double[] Sound, int[] Hits) OtherBursts(int rate) => Played(rate, [.. Every(0.3, 0.55).Select((t, i) => (t, i % 2 == 0 ? 0.8 : 0.4))], [], 0.6, 0.08, 4000);

    private static IEnumerable<double> Every(double first, double apart) => Enumerable.Range(0, 100).Select(i => first + (i * apart)).TakeWhile(t => t < Seconds - 0.5);

    // Modes of a head that die away, and noise.
    private static (double[] Sound, int[] Hits) Played(int rate, (double At, double Level)[] hits, (double Hz, double FallS)[] modes, double noise, double noiseS, ulong seed)
    {
        var sound = new double[Seconds * rate];
        int[] starts = [.. hits.Select(h => (int)Math.Round(h.At * rate))];
        for (var hit = 0; hit < hits.Length; hit++)
        {
            var random = new CounterNoise(seed + (ulong)hit);
            for (var i = 0; i < rate && starts[hit] + i < sound.Length; i++)
            {
                var t = (double)i / rate;
                var head = modes.Sum(m => Math.Exp(-t / m.FallS) * Math.Sin(2 * Math.PI * m.Hz * t) / modes.Length);
                sound[starts[hit] + i] += hits[hit].Level * (head + (noise * random.Bipolar(i) * Math.Exp(-t / noiseS)));
            }
        }

        return (sound, starts);
    }
}
