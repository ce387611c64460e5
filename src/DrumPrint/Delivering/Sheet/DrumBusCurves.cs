using System.Numerics;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Delivering.Sheet;

/// <summary>Measures the drum bus itself, so that what is drawn is what is heard.</summary>
internal static class DrumBusCurves
{
    private const double TwoPi = 6.283185307179586;
    private const double ImpulseDb = -60;
    private const int ResponseFrames = 1 << 15;
    private const int ResponsePoints = 121;
    private const double LowestHz = 20;
    private const double HighestHz = 20000;
    private const double ToneHz = 1000;
    private const double SettleS = 0.75;
    private const double ListenS = 0.25;

    private static readonly double[] TonesDb = [-60, -48, -40, -36, -33, -30, -27, -24, -21, -18, -15, -12, -9, -6, -3, 0];

    /// <summary>Whether the bus can be run without the session's files.</summary>
    public static bool CanMeasure(IReadOnlyList<Stage> stages) =>
        stages.Count > 0 && stages.All(s => s.Key is null && !s.Definition.Parameters.OfType<ImpulseParameter>().Any());

    /// <summary>Level against frequency, of an impulse of −60 dBFS.</summary>
    public static IReadOnlyList<(double Hz, double Db)> Response(IReadOnlyList<Stage> stages, int rateHz)
    {
        var samples = new double[ResponseFrames];
        samples[0] = Decibels.ToGain(ImpulseDb);
        Run(stages, rateHz, samples, new DesignMemory());
        var top = Math.Min(HighestHz, 0.45 * rateHz);
        var ratio = Elementary.Log(top / LowestHz);
        double[] hertz = [.. Enumerable.Range(0, ResponsePoints).Select(i => LowestHz * Elementary.Exp(ratio * i / (ResponsePoints - 1)))];
        var amplitudes = Amplitudes(samples, [.. hertz.Select(hz => hz / rateHz)]);
        return [.. hertz.Zip(amplitudes, (hz, amplitude) => (hz, Decibels.FromGain(amplitude) - ImpulseDb))];
    }

    /// <summary>Level out against level in, of a steady 1 kHz tone: peaks of a sine, in dBFS.</summary>
    public static IReadOnlyList<(double InDb, double OutDb)> Static(IReadOnlyList<Stage> stages, int rateHz)
    {
        var tone = new double[(int)(SettleS * rateHz) + (int)(ListenS * rateHz)];
        for (var n = 0; n < tone.Length; n++)
        {
            tone[n] = Elementary.Sin(TwoPi * (ToneHz * n / rateHz % 1));
        }

        var designs = new DesignMemory();
        return [.. TonesDb.Select(db => (db, Decibels.FromGain(Tone(stages, rateHz, At(db), designs))))];

        double[] At(double db)
        {
            var gain = Decibels.ToGain(db);
            return [.. tone.Select(x => gain * x)];
        }
    }

    private static double Tone(IReadOnlyList<Stage> stages, int rateHz, double[] samples, DesignMemory designs)
    {
        var listen = (int)(ListenS * rateHz);
        Run(stages, rateHz, samples, designs);
        var power = 0.0;
        for (var n = samples.Length - listen; n < samples.Length; n++)
        {
            power += samples[n] * samples[n];
        }

        return Math.Sqrt(2 * power / listen);
    }

    private static void Run(IReadOnlyList<Stage> stages, int rateHz, double[] samples, DesignMemory designs)
    {
        double[][] channels = [samples];
        foreach (var stage in stages)
        {
            var processor = stage.Definition.Create(stage.Settings, new ProcessorContext(new AudioFormat(rateHz, 1), samples.Length) { Designs = designs });
            for (var at = 0; at < samples.Length; at += 4096)
            {
                processor.Process(new AudioBlock(channels, at, Math.Min(4096, samples.Length - at)), AudioBlock.None);
            }
        }
    }

    // Several frequencies at a time: each waits for its own turn alone, so there is time for others, and none gets other bits by it.
    private static double[] Amplitudes(double[] samples, double[] cycles)
    {
        var width = Vector<double>.Count;
        var amplitudes = new double[cycles.Length];
        var (sines, cosines) = (new double[width], new double[width]);
        var sounding = samples.AsSpan(0, Array.FindLastIndex(samples, x => x != 0) + 1); // silence adds nothing
        for (var first = 0; first < cycles.Length; first += width)
        {
            var count = Math.Min(width, cycles.Length - first);
            for (var i = 0; i < count; i++)
            {
                (sines[i], cosines[i]) = Elementary.SinCos(TwoPi * cycles[first + i]);
            }

            var (sin, cos) = (new Vector<double>(sines), new Vector<double>(cosines));
            var (real, imaginary, re, im) = (Vector<double>.Zero, Vector<double>.Zero, Vector<double>.One, Vector<double>.Zero);
            foreach (var sample in sounding)
            {
                real += sample * re;
                imaginary += sample * im;
                (re, im) = ((re * cos) - (im * sin), (re * sin) + (im * cos));
            }

            var power = (real * real) + (imaginary * imaginary);
            for (var i = 0; i < count; i++)
            {
                amplitudes[first + i] = Math.Sqrt(power[i]);
            }
        }

        return amplitudes;
    }
}
