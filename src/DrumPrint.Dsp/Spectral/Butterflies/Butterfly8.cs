using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Eight points: four odd and four even ones, the odd ones turned by 0, 45, 90 and 135 degrees before they meet.</summary>
internal static class Butterfly8
{
    /// <summary>Transforms the columns of eight neighbouring rows into eight rows elsewhere, or into themselves.</summary>
    /// <param name="from">First number of the first row.</param>
    /// <param name="to">First number of the first row of the result; rows lie <paramref name="stride"/> apart.</param>
    /// <param name="stride">Distance between rows of the result.</param>
    /// <param name="re">Where in a row the real parts begin; changed over with <paramref name="im"/> it works backward.</param>
    /// <param name="im">Where in a row the imaginary parts begin.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Run<T>(ref double from, ref double to, nint stride, nint re, nint im)
        where T : struct, ILaneMoves<T>
    {
        for (nint column = 0; column < Strip.Width; column += T.Count)
        {
            ref var real = ref Unsafe.Add(ref from, re + column);
            ref var imaginary = ref Unsafe.Add(ref from, im + column);
            ref var toRe = ref Unsafe.Add(ref to, re + column);
            ref var toIm = ref Unsafe.Add(ref to, im + column);
            var root = T.Of(0.7071067811865476);
            var (ar, ai) = (Row<T>(ref real, 1), Row<T>(ref imaginary, 1));
            var (br, bi) = (Row<T>(ref real, 3), Row<T>(ref imaginary, 3));
            var (cr, ci) = (Row<T>(ref real, 5), Row<T>(ref imaginary, 5));
            var (dr, di) = (Row<T>(ref real, 7), Row<T>(ref imaginary, 7));
            var (pr, pi, qr, qi) = (ar + cr, ai + ci, ar - cr, ai - ci);
            var (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
            var (odd0r, odd0i) = (pr + ur, pi + ui);
            var (odd2r, odd2i) = (pi - ui, ur - pr);
            var (fr, fi, gr, gi) = (qr + vi, qi - vr, qr - vi, qi + vr);
            var (odd1r, odd1i) = (fr + fi, fi - fr);
            var (odd3r, odd3i) = (gi - gr, gr + gi);

            (ar, ai) = (Row<T>(ref real, 0), Row<T>(ref imaginary, 0));
            (br, bi) = (Row<T>(ref real, 2), Row<T>(ref imaginary, 2));
            (cr, ci) = (Row<T>(ref real, 4), Row<T>(ref imaginary, 4));
            (dr, di) = (Row<T>(ref real, 6), Row<T>(ref imaginary, 6));
            (pr, pi, qr, qi) = (ar + cr, ai + ci, ar - cr, ai - ci);
            (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
            var (even0r, even0i, even2r, even2i) = (pr + ur, pi + ui, pr - ur, pi - ui);
            (even0r + odd0r).Store(ref toRe);
            (even0i + odd0i).Store(ref toIm);
            (even0r - odd0r).Store(ref Unsafe.Add(ref toRe, 4 * stride));
            (even0i - odd0i).Store(ref Unsafe.Add(ref toIm, 4 * stride));
            (even2r + odd2r).Store(ref Unsafe.Add(ref toRe, 2 * stride));
            (even2i + odd2i).Store(ref Unsafe.Add(ref toIm, 2 * stride));
            (even2r - odd2r).Store(ref Unsafe.Add(ref toRe, 6 * stride));
            (even2i - odd2i).Store(ref Unsafe.Add(ref toIm, 6 * stride));
            var (even1r, even1i, even3r, even3i) = (qr + vi, qi - vr, qr - vi, qi + vr);
            T.Fma(odd1r, root, even1r).Store(ref Unsafe.Add(ref toRe, stride));
            T.Fma(odd1i, root, even1i).Store(ref Unsafe.Add(ref toIm, stride));
            T.FmaNegated(odd1r, root, even1r).Store(ref Unsafe.Add(ref toRe, 5 * stride));
            T.FmaNegated(odd1i, root, even1i).Store(ref Unsafe.Add(ref toIm, 5 * stride));
            T.Fma(odd3r, root, even3r).Store(ref Unsafe.Add(ref toRe, 3 * stride));
            T.FmaNegated(odd3i, root, even3i).Store(ref Unsafe.Add(ref toIm, 3 * stride));
            T.FmaNegated(odd3r, root, even3r).Store(ref Unsafe.Add(ref toRe, 7 * stride));
            T.Fma(odd3i, root, even3i).Store(ref Unsafe.Add(ref toIm, 7 * stride));
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Row<T>(ref double first, nint row)
        where T : struct, ILaneMoves<T> => T.Load(ref Unsafe.Add(ref first, row * Strip.RowLength));
}
