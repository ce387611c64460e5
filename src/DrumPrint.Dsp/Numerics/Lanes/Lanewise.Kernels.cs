using System.Runtime.CompilerServices;

namespace DrumPrint.Dsp.Numerics.Lanes;

internal static partial class Lanewise
{
    /// <summary>Does a piece of work in <see cref="LaneWidth.Usual"/> lanes, and what is left over one by one.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Run<TKernel>(ref TKernel kernel)
        where TKernel : struct, ILaneKernel, allows ref struct
    {
        var i = LaneWidth.Usual switch
        {
            8 => kernel.Run<Lane8>(0),
            4 => kernel.Run<Lane4>(0),
            2 => kernel.Run<Lane2>(0),
            _ => 0,
        };
        if (i < kernel.Length)
        {
            kernel.Run<Lane1>(i);
        }
    }
}
