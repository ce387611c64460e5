using DrumPrint.Demo.Playing;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Spaces;

/// <summary>The first separate reflections of a space.</summary>
internal static class EarlyReflections
{
    /// <summary>Adds reflections, denser and softer towards the end.</summary>
    /// <param name="response">What they are added to.</param>
    /// <param name="count">How many.</param>
    /// <param name="fromS">Time of the first.</param>
    /// <param name="toS">Time by which all have come.</param>
    /// <param name="level">Level of the first.</param>
    /// <param name="noise">Where times and signs come from.</param>
    public static void Add(double[] response, int count, double fromS, double toS, double level, CounterNoise noise)
    {
        for (var i = 0; i < count; i++)
        {
            var place = Math.Sqrt((i + (0.8 * noise.Unit(2 * i))) / count);
            var frame = (int)((fromS + ((toS - fromS) * place)) * SongForm.SampleRate);
            var gain = level * (1 - (0.8 * place)) * (noise.Bipolar((2 * i) + 1) < 0 ? -1 : 1);
            // A wall takes off the very top.
            response[frame] += 0.6 * gain;
            response[frame + 1] += 0.3 * gain;
            response[frame + 2] += 0.1 * gain;
        }
    }
}
