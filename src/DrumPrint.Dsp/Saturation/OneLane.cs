using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Saturation;

/// <summary>One channel by itself; the other lane is not looked at.</summary>
internal readonly struct OneLane : ILanes
{
    public static int Count => 1;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector128<double> Load(ref double first) => Vector128.CreateScalar(first);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Store(Vector128<double> lanes, ref double first) => first = lanes.ToScalar();
}
