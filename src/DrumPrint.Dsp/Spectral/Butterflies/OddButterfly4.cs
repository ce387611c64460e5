using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Four points, a quarter of the block apart, at frequencies a quarter of a step above the usual ones. Reads the two
/// halves of a real signal as one complex signal, first − i·second.</summary>
internal static class OddButterfly4
{
    private const int RootsPerPlace = 8;

    // Cosine and sine of a sixteenth of the circle, and the root of a half.
    private const double Cos16 = 0.9238795325112867;
    private const double Sin16 = 0.3826834323650898;
    private const double Cos8 = 0.7071067811865476;

    /// <summary>For each place j of a quarter the cosine and sine of j·(s + ¼) steps backwards, for s from 0 to 3.</summary>
    public static double[] Roots(int quarter)
    {
        var roots = new double[quarter * RootsPerPlace];
        var at = 0;
        for (var j = 0; j < quarter; j++)
        {
            for (var s = 0; s < 4; s++)
            {
                (roots[at], roots[at + 1]) = RootOfUnity.At(-(long)j * ((4 * s) + 1), 16L * quarter);
                at += 2;
            }
        }

        return roots;
    }

    /// <summary>Butterflies, then turns.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Forward<T>(ref double first, ref double second, ref double rows, nint quarter, ref double roots)
        where T : struct, ILaneMoves<T>
    {
        ref var x = ref first;
        ref var y = ref second;
        ref var to = ref rows;
        ref var root = ref roots;
        var (cos, sin, half) = (T.Of(Cos16), T.Of(Sin16), T.Of(Cos8));
        var from = quarter * Strip.Width;
        var step = quarter * Strip.RowLength;
        for (; quarter > 0; quarter--)
        {
            for (nint column = 0; column < Strip.Width; column += T.Count)
            {
                var (ax, ay) = (T.Load(ref x), T.Load(ref y));
                var (cx, cy) = (T.Load(ref Unsafe.Add(ref x, 2 * from)), T.Load(ref Unsafe.Add(ref y, 2 * from)));

                // (x − iy)·e^(−πi/4), and below e^(−πi/8) and e^(−3πi/8); −i·y and its like are carried as y.
                var (sum, difference) = (cx + cy, cx - cy);
                var (pr, pi) = (T.Fma(difference, half, ax), T.Fma(sum, half, ay));
                var (qr, qi) = (T.FmaNegated(difference, half, ax), T.FmaNegated(sum, half, ay));
                var (bx, by) = (T.Load(ref Unsafe.Add(ref x, from)), T.Load(ref Unsafe.Add(ref y, from)));
                var (dx, dy) = (T.Load(ref Unsafe.Add(ref x, 3 * from)), T.Load(ref Unsafe.Add(ref y, 3 * from)));
                var (br, bi) = (T.FmaNegated(by, sin, bx * cos), T.Fma(bx, sin, by * cos));
                var (dr, di) = (T.FmaNegated(dy, cos, dx * sin), T.Fma(dx, cos, dy * sin));
                var (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
                StoreTurned(ref to, pr + ur, pi + ui, ref root);
                StoreTurned(ref Unsafe.Add(ref to, step), qr - vi, qi + vr, ref Unsafe.Add(ref root, 2));
                StoreTurned(ref Unsafe.Add(ref to, 2 * step), pr - ur, pi - ui, ref Unsafe.Add(ref root, 4));
                StoreTurned(ref Unsafe.Add(ref to, 3 * step), qr + vi, qi - vr, ref Unsafe.Add(ref root, 6));
                x = ref Unsafe.Add(ref x, T.Count);
                y = ref Unsafe.Add(ref y, T.Count);
                to = ref Unsafe.Add(ref to, T.Count);
            }

            to = ref Unsafe.Add(ref to, Strip.Width);
            root = ref Unsafe.Add(ref root, RootsPerPlace);
        }
    }

    /// <summary>Turns back, then butterflies; only the second half of the real signal is worked out, times four.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void InverseSecondHalf<T>(ref double rows, ref double second, nint quarter, ref double roots)
        where T : struct, ILaneMoves<T>
    {
        ref var y = ref second;
        ref var from = ref rows;
        ref var root = ref roots;
        var (minusCos, minusSin, minusHalf) = (T.Of(-Cos16), T.Of(-Sin16), T.Of(-Cos8));
        var to = quarter * Strip.Width;
        var step = quarter * Strip.RowLength;
        for (; quarter > 0; quarter--)
        {
            for (nint column = 0; column < Strip.Width; column += T.Count)
            {
                Turn.LoadBack(ref from, ref root, out T ar, out T ai);
                Turn.LoadBack(ref Unsafe.Add(ref from, step), ref Unsafe.Add(ref root, 2), out T br, out T bi);
                Turn.LoadBack(ref Unsafe.Add(ref from, 2 * step), ref Unsafe.Add(ref root, 4), out T cr, out T ci);
                Turn.LoadBack(ref Unsafe.Add(ref from, 3 * step), ref Unsafe.Add(ref root, 6), out T dr, out T di);
                var (pr, pi, qr, qi) = (ar + cr, ai + ci, ar - cr, ai - ci);
                var (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);

                // The second half is −Im(z·e^(πi·a/8)) for quarter a.
                (T.Of(0) - (pi + ui)).Store(ref y);
                T.Fma(qr - vi, minusSin, (qi + vr) * minusCos).Store(ref Unsafe.Add(ref y, to));
                ((pr - ur + (pi - ui)) * minusHalf).Store(ref Unsafe.Add(ref y, 2 * to));
                T.Fma(qr + vi, minusCos, (qi - vr) * minusSin).Store(ref Unsafe.Add(ref y, 3 * to));
                y = ref Unsafe.Add(ref y, T.Count);
                from = ref Unsafe.Add(ref from, T.Count);
            }

            from = ref Unsafe.Add(ref from, Strip.Width);
            root = ref Unsafe.Add(ref root, RootsPerPlace);
        }
    }

    // Stores (re − i·im)·(cos + i·sin).
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void StoreTurned<T>(ref double to, T re, T im, ref double root)
        where T : struct, ILaneMoves<T>
    {
        var (cos, sin) = (T.Of(root), T.Of(Unsafe.Add(ref root, 1)));
        T.Fma(im, sin, re * cos).Store(ref to);
        T.FmaNegated(im, cos, re * sin).Store(ref Unsafe.Add(ref to, Strip.Width));
    }
}
