using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Synthesis;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Spaces;

/// <summary>The response of a tiled chamber with two loudspeakers and two microphones, without the direct sound: LL, LR, RL,
/// RR. It is 2.6 s long and has a decay time of 1.9 s.</summary>
internal static class Chamber
{
    private const double LengthS = 2.6;
    private const double DecayS = 1.9;
    private const double FadeS = 0.15;
    private const double AcrossDb = -1.5;

    public static double[][] Make()
    {
        // What goes to the far side takes a little longer and arrives a little softer.
        double[][] channels = [Way("LL", 0, 0), Way("LR", 0.0035, AcrossDb), Way("RL", 0.0038, AcrossDb), Way("RR", 0.0002, 0)];
        ImpulseLevel.ToUnitEnergy(channels.AsSpan(0, 2));
        ImpulseLevel.ToUnitEnergy(channels.AsSpan(2, 2));
        return channels;
    }

    private static double[] Way(string name, double laterS, double levelDb)
    {
        var frames = (int)(LengthS * SongForm.SampleRate);
        var noise = CounterNoise.FromName($"slow ferry/chamber/{name}");
        var response = new double[frames];
        new DiffuseTail(DecayS, 0.009 + laterS, 0.014).AddTo(response, 1, noise);
        EarlyReflections.Add(response, 14, 0.006 + laterS, 0.070, 0.12, Streams.Of(noise, 90));
        ImpulseLevel.FadeOut(response, (int)(FadeS * SongForm.SampleRate));
        var gain = Decibels.ToGain(levelDb);
        return Array.ConvertAll(response, s => gain * s);
    }
}
