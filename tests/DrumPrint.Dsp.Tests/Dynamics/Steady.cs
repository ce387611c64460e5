using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>Levels that stand still or step, and the gains processors give them.</summary>
internal static class Steady
{
    public static double Amplitude(double db) => Math.Pow(10, db / 20);

    /// <summary>A square wave at half the sample rate: every sample has the same magnitude, and no filter or rectifier
    /// question comes in.</summary>
    public static double[] Level(int frames, double db) => Steps((frames, db));

    /// <summary>The same, stepping from level to level.</summary>
    public static double[] Steps(params (int Frames, double Db)[] steps)
    {
        var levels = steps.SelectMany(s => Enumerable.Repeat(Amplitude(s.Db), s.Frames)).ToArray();
        return levels.Select((x, n) => n % 2 == 0 ? x : -x).ToArray();
    }

    /// <summary>Gain in dB of every frame.</summary>
    public static double[] GainDb(double[] input, double[] output) =>
        input.Zip(output, (x, y) => Spectrum.Decibels(y / x)).ToArray();

    /// <summary>Gain in dB that one mono signal gets in every frame.</summary>
    public static double[] GainDb(ProcessorDefinition definition, Settings settings, double[] input, double[]? key = null) =>
        GainDb(input, Run.Through(definition, settings, [input], key: key is null ? null : [key])[0]);

    public static int Frames(double milliseconds) => (int)Math.Round(milliseconds * Run.SampleRate / 1000);

    /// <summary>Milliseconds from a frame to the end of the first later one for which something holds.</summary>
    public static double TimeMs(double[] values, int from, Func<double, bool> holds) =>
        1000.0 * (Array.FindIndex(values, from, v => holds(v)) - from + 1) / Run.SampleRate;
}
