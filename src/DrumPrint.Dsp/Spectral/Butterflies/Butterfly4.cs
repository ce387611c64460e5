using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Four points, a quarter of the block apart.</summary>
/// <remarks>Roots lie as one reads them: for each place j of a block the cosine and sine of j, 2j and 3j steps backwards.</remarks>
internal static class Butterfly4
{
    /// <summary>Numbers in the table of roots for each place.</summary>
    public const int RootsPerPlace = 6;

    /// <summary>One block of four quarters: butterflies, then turns (decimation in frequency).</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Forward<T, TSource>(TSource source, Strip to, nint quarter, ref double roots)
        where T : struct, ILane<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        ref var root = ref roots;
        for (nint j = 0; j < quarter; j++)
        {
            for (nint column = 0; column < Strip.Width; column += T.Width)
            {
                source.Load<T>(j, column, out var ar, out var ai);
                source.Load<T>(j + quarter, column, out var br, out var bi);
                source.Load<T>(j + (2 * quarter), column, out var cr, out var ci);
                source.Load<T>(j + (3 * quarter), column, out var dr, out var di);
                var (pr, pi, qr, qi) = (ar + cr, ai + ci, ar - cr, ai - ci);
                var (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
                to.Store(j, column, pr + ur, pi + ui);
                to.StoreTurned(j + quarter, column, qr + vi, qi - vr, ref root);
                to.StoreTurned(j + (2 * quarter), column, pr - ur, pi - ui, ref Unsafe.Add(ref root, 2));
                to.StoreTurned(j + (3 * quarter), column, qr - vi, qi + vr, ref Unsafe.Add(ref root, 4));
            }

            root = ref Unsafe.Add(ref root, RootsPerPlace);
        }
    }

    /// <summary>Undoes <see cref="Forward"/> but for a factor of four: turns back, then butterflies, in place.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Inverse<T>(Strip strip, nint quarter, ref double roots)
        where T : struct, ILane<T>
    {
        ref var root = ref roots;
        for (nint j = 0; j < quarter; j++)
        {
            for (nint column = 0; column < Strip.Width; column += T.Width)
            {
                strip.Load<T>(j, column, out var ar, out var ai);
                strip.LoadTurnedBack<T>(j + quarter, column, ref root, out var br, out var bi);
                strip.LoadTurnedBack<T>(j + (2 * quarter), column, ref Unsafe.Add(ref root, 2), out var cr, out var ci);
                strip.LoadTurnedBack<T>(j + (3 * quarter), column, ref Unsafe.Add(ref root, 4), out var dr, out var di);
                var (pr, pi, qr, qi) = (ar + cr, ai + ci, ar - cr, ai - ci);
                var (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
                strip.Store(j, column, pr + ur, pi + ui);
                strip.Store(j + quarter, column, qr - vi, qi + vr);
                strip.Store(j + (2 * quarter), column, pr - ur, pi - ui);
                strip.Store(j + (3 * quarter), column, qr + vi, qi - vr);
            }

            root = ref Unsafe.Add(ref root, RootsPerPlace);
        }
    }

    /// <summary>Blocks of four neighbouring rows, which need no turns, in place: forward, or backward with
    /// <paramref name="re"/> and <paramref name="im"/> changed over.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Neighbours<T>(ref double rows, nint count, nint re, nint im)
        where T : struct, ILane<T>
    {
        for (nint row = 0; row < count; row += 4)
        {
            for (nint column = 0; column < Strip.Width; column += T.Width)
            {
                ref var a = ref Unsafe.Add(ref rows, (row * Strip.RowLength) + column);
                ref var b = ref Unsafe.Add(ref a, Strip.RowLength);
                ref var c = ref Unsafe.Add(ref a, 2 * Strip.RowLength);
                ref var d = ref Unsafe.Add(ref a, 3 * Strip.RowLength);
                var (ar, ai) = (T.Load(ref Unsafe.Add(ref a, re)), T.Load(ref Unsafe.Add(ref a, im)));
                var (br, bi) = (T.Load(ref Unsafe.Add(ref b, re)), T.Load(ref Unsafe.Add(ref b, im)));
                var (cr, ci) = (T.Load(ref Unsafe.Add(ref c, re)), T.Load(ref Unsafe.Add(ref c, im)));
                var (dr, di) = (T.Load(ref Unsafe.Add(ref d, re)), T.Load(ref Unsafe.Add(ref d, im)));
                var (pr, pi, qr, qi) = (ar + cr, ai + ci, ar - cr, ai - ci);
                var (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
                (pr + ur).Store(ref Unsafe.Add(ref a, re));
                (pi + ui).Store(ref Unsafe.Add(ref a, im));
                (qr + vi).Store(ref Unsafe.Add(ref b, re));
                (qi - vr).Store(ref Unsafe.Add(ref b, im));
                (pr - ur).Store(ref Unsafe.Add(ref c, re));
                (pi - ui).Store(ref Unsafe.Add(ref c, im));
                (qr - vi).Store(ref Unsafe.Add(ref d, re));
                (qi + vr).Store(ref Unsafe.Add(ref d, im));
            }
        }
    }
}
