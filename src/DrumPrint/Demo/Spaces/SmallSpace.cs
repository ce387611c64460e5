using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Synthesis;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Spaces;

/// <summary>The response of a small, hard space in stereo: 0.9 s long, with a decay time of 0.6 s.</summary>
internal static class SmallSpace
{
    private const double LengthS = 0.9;
    private const double DecayS = 0.6;
    private const double FadeS = 0.05;

    public static double[][] Make()
    {
        double[][] channels = [Side("left"), Side("right")];
        ImpulseLevel.ToUnitEnergy(channels);
        return channels;
    }

    private static double[] Side(string name)
    {
        var noise = CounterNoise.FromName($"slow ferry/small space/{name}");
        var response = new double[(int)(LengthS * SongForm.SampleRate)];
        new DiffuseTail(DecayS, 0.004, 0.004).AddTo(response, 1, noise);
        EarlyReflections.Add(response, 10, 0.002, 0.025, 0.2, Streams.Of(noise, 90));
        ImpulseLevel.FadeOut(response, (int)(FadeS * SongForm.SampleRate));
        return response;
    }
}
