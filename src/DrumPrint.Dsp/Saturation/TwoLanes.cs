using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Saturation;

/// <summary>Two channels that lie side by side.</summary>
internal readonly struct TwoLanes : ILanes
{
    public static int Count => 2;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector128<double> Load(ref double first) => Vector128.LoadUnsafe(ref first);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Store(Vector128<double> lanes, ref double first) => lanes.StoreUnsafe(ref first);
}
