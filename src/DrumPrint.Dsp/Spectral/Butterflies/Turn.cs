using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Multiplies a row of a strip by one root of unity, given as its cosine and sine, on the way in or out.</summary>
internal static class Turn
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Store<T>(ref double to, T re, T im, ref double root)
        where T : struct, ILaneMoves<T>
    {
        var (cos, sin) = (T.Of(root), T.Of(Unsafe.Add(ref root, 1)));
        T.FmaNegated(im, sin, re * cos).Store(ref to);
        T.Fma(re, sin, im * cos).Store(ref Unsafe.Add(ref to, Strip.Width));
    }

    /// <summary>Loads and multiplies by the conjugate of the root.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void LoadBack<T>(ref double from, ref double root, out T re, out T im)
        where T : struct, ILaneMoves<T>
    {
        var (xr, xi) = (T.Load(ref from), T.Load(ref Unsafe.Add(ref from, Strip.Width)));
        var (cos, sin) = (T.Of(root), T.Of(Unsafe.Add(ref root, 1)));
        re = T.Fma(xr, cos, xi * sin);
        im = T.FmaNegated(xr, sin, xi * cos);
    }
}
