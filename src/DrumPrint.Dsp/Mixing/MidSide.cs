namespace DrumPrint.Dsp.Mixing;

/// <summary>Left and right as middle and side, and back: M = (L + R) / 2, S = (L − R) / 2, L = M + S, R = M − S.</summary>
/// <remarks>There and back differs from what was by the rounding of a 64-bit sum, some 300 dB down.</remarks>
public static class MidSide
{
    /// <summary>Left and right become middle and side, in place.</summary>
    public static void Part(Span<double> left, Span<double> right)
    {
        right = right[..left.Length];
        for (var n = 0; n < left.Length; n++)
        {
            (left[n], right[n]) = (0.5 * (left[n] + right[n]), 0.5 * (left[n] - right[n]));
        }
    }

    /// <summary>Middle and side become left and right, in place.</summary>
    public static void Join(Span<double> mid, Span<double> side)
    {
        side = side[..mid.Length];
        for (var n = 0; n < mid.Length; n++)
        {
            (mid[n], side[n]) = (mid[n] + side[n], mid[n] - side[n]);
        }
    }
}
