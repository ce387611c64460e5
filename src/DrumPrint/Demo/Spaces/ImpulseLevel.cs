using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Spaces;

/// <summary>Level and ending of an impulse response.</summary>
internal static class ImpulseLevel
{
    /// <summary>Brings the energy of some channels together to 1, which is 0 dB.</summary>
    public static void ToUnitEnergy(ReadOnlySpan<double[]> channels)
    {
        var energy = 0.0;
        foreach (var channel in channels)
        {
            foreach (var sample in channel)
            {
                energy += sample * sample;
            }
        }

        var gain = 1 / Math.Sqrt(energy);
        foreach (var channel in channels)
        {
            foreach (ref var sample in channel.AsSpan())
            {
                sample *= gain;
            }
        }
    }

    /// <summary>Fades the last frames out along half a cosine.</summary>
    public static void FadeOut(double[] response, int frames)
    {
        for (var n = 0; n < frames; n++)
        {
            response[response.Length - frames + n] *= 0.5 + (0.5 * Elementary.Cos(Math.PI * (n + 1) / frames));
        }
    }
}
