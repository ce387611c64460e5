using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Three points, a third of the block apart.</summary>
internal static class Butterfly3
{
    /// <summary>One block of three thirds: butterflies, then turns by the cosine and sine of j and 2j steps backwards.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Forward<T, TSource>(TSource source, Strip to, nint third, ref double roots)
        where T : struct, ILaneMoves<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        ref var root = ref roots;
        for (nint j = 0; j < third; j++)
        {
            for (nint column = 0; column < Strip.Width; column += T.Count)
            {
                var half = T.Of(0.5);
                var sine = T.Of(0.8660254037844386);
                source.Load<T>(j, column, out var ar, out var ai);
                source.Load<T>(j + third, column, out var br, out var bi);
                source.Load<T>(j + (2 * third), column, out var cr, out var ci);
                var (sr, si) = (br + cr, bi + ci);
                var (dr, di) = ((br - cr) * sine, (bi - ci) * sine);
                var (mr, mi) = (T.FmaNegated(sr, half, ar), T.FmaNegated(si, half, ai));
                to.Store(j, column, ar + sr, ai + si);
                to.StoreTurned(j + third, column, mr + di, mi - dr, ref root);
                to.StoreTurned(j + (2 * third), column, mr - di, mi + dr, ref Unsafe.Add(ref root, 2));
            }

            root = ref Unsafe.Add(ref root, 4);
        }
    }
}
