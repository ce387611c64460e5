using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>How many numbers this machine works on at once.</summary>
internal static class LaneWidth
{
    /// <summary>8, 4, 2 or 1.</summary>
    public static int Best { get; } =
        Vector512.IsHardwareAccelerated ? 8 : Vector256.IsHardwareAccelerated ? 4 : Vector128.IsHardwareAccelerated ? 2 : 1;
}
