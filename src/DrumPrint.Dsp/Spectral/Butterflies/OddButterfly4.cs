using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Four points, a quarter of the block apart, at frequencies a quarter of a step above the usual ones; reads the two
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
    public static void Forward<T>(ref double first, ref double second, Strip to, nint quarter, ref double roots)
        where T : struct, ILane<T>
    {
        ref var root = ref roots;
        var (cos, sin, half) = (T.Of(Cos16), T.Of(Sin16), T.Of(Cos8));
        var step = quarter * Strip.Width;
        for (nint j = 0; j < quarter; j++)
        {
            for (nint column = 0; column < Strip.Width; column += T.Width)
            {
                ref var x = ref Unsafe.Add(ref first, (j * Strip.Width) + column);
                ref var y = ref Unsafe.Add(ref second, (j * Strip.Width) + column);
                var (ax, ay) = (T.Load(ref x), T.Load(ref y));
                var (cx, cy) = (T.Load(ref Unsafe.Add(ref x, 2 * step)), T.Load(ref Unsafe.Add(ref y, 2 * step)));

                // (x − iy)·e^(−πi/4), and below e^(−πi/8) and e^(−3πi/8).
                var (sum, difference) = (cx + cy, cx - cy);
                var (pr, pi) = (T.Fma(difference, half, ax), T.FmaNegated(sum, half, T.Of(0) - ay));
                var (qr, qi) = (T.FmaNegated(difference, half, ax), T.Fma(sum, half, T.Of(0) - ay));
                var (bx, by) = (T.Load(ref Unsafe.Add(ref x, step)), T.Load(ref Unsafe.Add(ref y, step)));
                var (dx, dy) = (T.Load(ref Unsafe.Add(ref x, 3 * step)), T.Load(ref Unsafe.Add(ref y, 3 * step)));
                var (br, bi) = (T.FmaNegated(by, sin, bx * cos), T.Fma(bx, sin, by * cos));
                var (dr, di) = (T.FmaNegated(dy, cos, dx * sin), T.Fma(dx, cos, dy * sin));
                var (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
                to.StoreTurned(j, column, pr + ur, pi - ui, ref root);
                to.StoreTurned(j + quarter, column, qr - vi, qi - vr, ref Unsafe.Add(ref root, 2));
                to.StoreTurned(j + (2 * quarter), column, pr - ur, pi + ui, ref Unsafe.Add(ref root, 4));
                to.StoreTurned(j + (3 * quarter), column, qr + vi, qi + vr, ref Unsafe.Add(ref root, 6));
            }

            root = ref Unsafe.Add(ref root, RootsPerPlace);
        }
    }

    /// <summary>Turns back, then butterflies; only the second half of the real signal is worked out, times four.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void InverseSecondHalf<T>(Strip strip, ref double second, nint quarter, ref double roots)
        where T : struct, ILane<T>
    {
        ref var root = ref roots;
        var (cos, sin, half) = (T.Of(Cos16), T.Of(Sin16), T.Of(Cos8));
        var step = quarter * Strip.Width;
        for (nint j = 0; j < quarter; j++)
        {
            for (nint column = 0; column < Strip.Width; column += T.Width)
            {
                strip.LoadTurnedBack<T>(j, column, ref root, out var ar, out var ai);
                strip.LoadTurnedBack<T>(j + quarter, column, ref Unsafe.Add(ref root, 2), out var br, out var bi);
                strip.LoadTurnedBack<T>(j + (2 * quarter), column, ref Unsafe.Add(ref root, 4), out var cr, out var ci);
                strip.LoadTurnedBack<T>(j + (3 * quarter), column, ref Unsafe.Add(ref root, 6), out var dr, out var di);
                var (pi, qr, qi) = (ai + ci, ar - cr, ai - ci);
                var (ui, vr, vi) = (bi + di, br - dr, bi - di);

                // The second half is −Im(z·e^(πi·a/8)) for quarter a.
                ref var y = ref Unsafe.Add(ref second, (j * Strip.Width) + column);
                (T.Of(0) - (pi + ui)).Store(ref y);
                var (re, im) = (qr - vi, qi + vr);
                (T.Of(0) - T.Fma(re, sin, im * cos)).Store(ref Unsafe.Add(ref y, step));
                var (pr, ur) = (ar + cr, br + dr);
                (T.Of(0) - (((pr - ur) + (pi - ui)) * half)).Store(ref Unsafe.Add(ref y, 2 * step));
                (re, im) = (qr + vi, qi - vr);
                (T.Of(0) - T.Fma(re, cos, im * sin)).Store(ref Unsafe.Add(ref y, 3 * step));
            }

            root = ref Unsafe.Add(ref root, RootsPerPlace);
        }
    }
}
