using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>What one frame leaves of a distance that shrinks exponentially.</summary>
/// <remarks>Source: Giannoulis, Massberg and Reiss, "Digital Dynamic Range Compressor Design", JAES 60(6), 2012,
/// eq. (7): a = exp(−1 / (τ · rate)); after τ a step has come 63.2 % of its way, eq. (5) and (6).</remarks>
internal static class TimeConstant
{
    /// <summary>The factor for a time constant in milliseconds; 0 (at once) for none.</summary>
    public static double PerFrame(double milliseconds, int sampleRate) => PerFrame(milliseconds * sampleRate / 1000);

    /// <summary>The factor for a time constant in frames; 0 (at once) for none.</summary>
    public static double PerFrame(double frames) => frames <= 0 ? 0 : Elementary.Exp(-1 / frames);

    /// <summary>Replaces time constants in frames by their factors, each with the bits it has by itself.</summary>
    public static void PerFrame(Span<double> frames)
    {
        foreach (ref var value in frames)
        {
            value = value <= 0 ? double.NegativeInfinity : -1 / value;
        }

        Elementary.Exp(frames, frames);
    }
}
