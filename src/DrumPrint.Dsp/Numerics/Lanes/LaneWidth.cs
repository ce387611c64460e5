using System.Numerics;
using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>How many numbers this machine works on at once.</summary>
/// <remarks><see cref="Vector{T}"/> is asked for its width alone: that is where a build says how wide plain loops may be.</remarks>
internal static class LaneWidth
{
    /// <summary>8, 4, 2 or 1.</summary>
    public static int Best { get; } =
        Vector512.IsHardwareAccelerated ? 8 : Vector256.IsHardwareAccelerated ? 4 : Vector128.IsHardwareAccelerated ? 2 : 1;

    /// <summary>Lanes of a plain loop: 4, 2 or 1, and 8 only in a build made for wide vectors. The compiler knows it.</summary>
    public static int Usual => Vector128.IsHardwareAccelerated ? Vector<double>.Count : 1;

    /// <summary>Rounds a length up to a whole number of <see cref="Usual"/> lanes.</summary>
    public static int Whole(int length) => (length + Usual - 1) / Usual * Usual;
}
