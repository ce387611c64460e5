using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Playing;

/// <summary>Normally distributed draws, by the sum of twelve uniform ones (variance 1/12 each).</summary>
internal static class Gaussian
{
    /// <summary>Mean 0, standard deviation 1. Uses counters 12·<paramref name="draw"/> to 12·<paramref name="draw"/> + 11.</summary>
    public static double Draw(CounterNoise noise, long draw)
    {
        var sum = -6.0;
        for (var i = 0; i < 12; i++)
        {
            sum += noise.Unit((12 * draw) + i);
        }

        return sum;
    }
}
