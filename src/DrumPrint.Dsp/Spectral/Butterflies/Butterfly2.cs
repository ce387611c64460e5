using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Two neighbouring points, which need no turns: the same forward and backward.</summary>
internal static class Butterfly2
{
    /// <summary>Transforms pairs of rows in place until all rows are done.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Neighbours<T>(ref double rows, nint count)
        where T : struct, ILaneMoves<T>
    {
        for (nint row = 0; row < count; row += 2)
        {
            for (nint at = 0; at < Strip.RowLength; at += T.Count)
            {
                ref var a = ref Unsafe.Add(ref rows, (row * Strip.RowLength) + at);
                ref var b = ref Unsafe.Add(ref a, Strip.RowLength);
                var (x, y) = (T.Load(ref a), T.Load(ref b));
                (x + y).Store(ref a);
                (x - y).Store(ref b);
            }
        }
    }
}
