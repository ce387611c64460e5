using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>Levels that stand still or step, and the gains processors give them.</summary>
internal static class Steady
{
    /// <summary>Frames of an edge between two levels.</summary>
    public const int EdgeFrames = 8;

    /// <summary>Frames in which the first level is reached.</summary>
    public const int RiseFrames = 32;

    // More than any filter of a detector looks ahead or back.
    private const int FilterFrames = 200;
    private const int SincReach = 60;

    public static double Amplitude(double db) => Math.Pow(10, db / 20);

    /// <summary>Direct current: the wave stands as high at every point, between the samples too.</summary>
    public static double[] Level(int frames, double db) => Steps((frames, db));

    /// <summary>The same, stepping from level to level along a raised cosine of eight frames about each step. So the wave does
    /// not overshoot between the samples. It rises from nothing in the first thirty-two frames.</summary>
    public static double[] Steps(params (int Frames, double Db)[] steps)
    {
        var starts = new int[steps.Length];
        for (var i = 1; i < steps.Length; i++)
        {
            starts[i] = starts[i - 1] + steps[i - 1].Frames;
        }

        return [.. Enumerable.Range(0, steps.Sum(s => s.Frames)).Select(n => Enumerable.Range(0, steps.Length).Sum(i =>
        {
            var edge = i == 0 ? (n + 0.5) / RiseFrames : (n + 0.5 - starts[i] + (EdgeFrames / 2.0)) / EdgeFrames;
            var height = Amplitude(steps[i].Db) - (i == 0 ? 0 : Amplitude(steps[i - 1].Db));
            return height * (1 - Math.Cos(Math.PI * Math.Clamp(edge, 0, 1))) / 2;
        }))];
    }

    /// <summary>Gain in dB of every frame.</summary>
    public static double[] GainDb(double[] input, double[] output) =>
        input.Zip(output, (x, y) => Spectrum.Decibels(y / x)).ToArray();

    /// <summary>Gain in dB that one mono signal gets in every frame, the latency taken out. After its end the signal stays where
    /// it is.</summary>
    public static double[] GainDb(ProcessorDefinition definition, Settings settings, double[] input, double[]? key = null) =>
        GainDb(input, Through(definition, settings, [input], key is null ? null : [key])[0]);

    /// <summary>What comes out, in time with what goes in. After their end signal and key stay where they are.</summary>
    public static double[][] Through(ProcessorDefinition definition, Settings settings, double[][] input, double[][]? key = null, int sampleRate = Run.SampleRate)
    {
        var context = new ProcessorContext(new AudioFormat(sampleRate, input.Length), input[0].Length, key?.Length ?? 0, new Dictionary<string, Impulse>()) { Designs = Run.Designs };
        return Through(definition.Create(settings, context), input, key);
    }

    /// <summary>The same for a processor already made.</summary>
    public static double[][] Through(IProcessor processor, double[][] input, double[][]? key = null)
    {
        double[] Lengthened(double[] x) => [.. x, .. Enumerable.Repeat(x[^1], processor.LatencyFrames + FilterFrames)];
        var output = Run.Through(processor, Array.ConvertAll(input, Lengthened), input.Length, key: key is null ? null : Array.ConvertAll(key, Lengthened));
        return Array.ConvertAll(output, y => y[processor.LatencyFrames..(processor.LatencyFrames + input[0].Length)]);
    }

    /// <summary>The level in each frame: the higher of its sample and the wave half a frame later, worked out with a long windowed
    /// sinc.</summary>
    public static double[] Levels(double[] input) => [.. Enumerable.Range(0, input.Length).Select(n => Math.Max(Math.Abs(input[n]), Math.Abs(HalfLater(input, n))))];

    /// <summary>First frame from one on whose level reaches a value.</summary>
    public static int FirstAtLeast(double[] input, double db, int from = 0) => Array.FindIndex(Levels(input), from, l => l >= Amplitude(db));

    /// <summary>Last frame whose level reaches a value.</summary>
    public static int LastAtLeast(double[] input, double db) => Array.FindLastIndex(Levels(input), l => l >= Amplitude(db));

    public static int Frames(double milliseconds) => (int)Math.Round(milliseconds * Run.SampleRate / 1000);

    /// <summary>Milliseconds from a frame to the end of the first later one for which something holds.</summary>
    public static double TimeMs(double[] values, int from, Func<double, bool> holds) =>
        1000.0 * (Array.FindIndex(values, from, v => holds(v)) - from + 1) / Run.SampleRate;

    private static double HalfLater(double[] input, int frame)
    {
        var sum = 0.0;
        var weights = 0.0;
        for (var k = frame - SincReach + 1; k <= frame + SincReach; k++)
        {
            var away = frame + 0.5 - k;
            var weight = Math.Sin(Math.PI * away) / (Math.PI * away) * Math.Pow(Math.Cos(Math.PI * away / (2 * SincReach)), 2);
            sum += weight * input[Math.Clamp(k, 0, input.Length - 1)];
            weights += weight;
        }

        return sum / weights;
    }
}
