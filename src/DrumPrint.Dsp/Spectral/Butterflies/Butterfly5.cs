using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Five points, a fifth of the block apart.</summary>
internal static class Butterfly5
{
    /// <summary>One block of five fifths: butterflies, then turns by the cosine and sine of j, 2j, 3j and 4j steps backwards.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Forward<T, TSource>(TSource source, Strip to, nint fifth, ref double roots)
        where T : struct, ILaneMoves<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        ref var root = ref roots;
        for (nint j = 0; j < fifth; j++)
        {
            for (nint column = 0; column < Strip.Width; column += T.Count)
            {
                var c1 = T.Of(0.30901699437494745);  // cos 72°
                var c2 = T.Of(-0.8090169943749475);  // cos 144°
                var s1 = T.Of(0.9510565162951535);   // sin 72°
                var s2 = T.Of(0.5877852522924731);   // sin 144°
                source.Load<T>(j, column, out var ar, out var ai);
                source.Load<T>(j + fifth, column, out var br, out var bi);
                source.Load<T>(j + (2 * fifth), column, out var cr, out var ci);
                source.Load<T>(j + (3 * fifth), column, out var dr, out var di);
                source.Load<T>(j + (4 * fifth), column, out var er, out var ei);
                var (pr, pi, qr, qi) = (br + er, bi + ei, br - er, bi - ei);
                var (ur, ui, vr, vi) = (cr + dr, ci + di, cr - dr, ci - di);
                var (mr, mi) = (T.Fma(pr, c1, T.Fma(ur, c2, ar)), T.Fma(pi, c1, T.Fma(ui, c2, ai)));
                var (nr, ni) = (T.Fma(pr, c2, T.Fma(ur, c1, ar)), T.Fma(pi, c2, T.Fma(ui, c1, ai)));
                var (xr, xi) = (T.Fma(qr, s1, vr * s2), T.Fma(qi, s1, vi * s2));
                var (yr, yi) = (T.FmaNegated(vr, s1, qr * s2), T.FmaNegated(vi, s1, qi * s2));
                to.Store(j, column, ar + (pr + ur), ai + (pi + ui));
                to.StoreTurned(j + fifth, column, mr + xi, mi - xr, ref root);
                to.StoreTurned(j + (2 * fifth), column, nr + yi, ni - yr, ref Unsafe.Add(ref root, 2));
                to.StoreTurned(j + (3 * fifth), column, nr - yi, ni + yr, ref Unsafe.Add(ref root, 4));
                to.StoreTurned(j + (4 * fifth), column, mr - xi, mi + xr, ref Unsafe.Add(ref root, 6));
            }

            root = ref Unsafe.Add(ref root, 8);
        }
    }
}
