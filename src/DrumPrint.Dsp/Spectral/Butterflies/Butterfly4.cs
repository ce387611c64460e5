using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Four points, a quarter of the block apart.</summary>
/// <remarks>Roots lie as one reads them: for each place j of a block the cosine and sine of j, 2j and 3j steps backwards.</remarks>
internal static class Butterfly4
{
    /// <summary>Numbers in the table of roots for each place.</summary>
    public const int RootsPerPlace = 6;

    /// <summary>One block of four quarters read from a source: butterflies, then turns (decimation in frequency).</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Forward<T, TSource>(TSource source, Strip to, nint quarter, ref double roots)
        where T : struct, ILaneMoves<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        ref var root = ref roots;
        for (nint j = 0; j < quarter; j++)
        {
            for (nint column = 0; column < Strip.Width; column += T.Count)
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

    /// <summary>One block of four quarters in place: butterflies, then turns.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Forward<T>(ref double rows, nint quarter, ref double roots)
        where T : struct, ILaneMoves<T>
    {
        ref var a = ref rows;
        ref var b = ref Unsafe.Add(ref a, quarter * Strip.RowLength);
        ref var c = ref Unsafe.Add(ref b, quarter * Strip.RowLength);
        ref var d = ref Unsafe.Add(ref c, quarter * Strip.RowLength);
        ref var root = ref roots;
        for (; quarter > 0; quarter--)
        {
            for (nint column = 0; column < Strip.Width; column += T.Count)
            {
                var (ar, ai) = (T.Load(ref a), T.Load(ref Unsafe.Add(ref a, Strip.Width)));
                var (br, bi) = (T.Load(ref b), T.Load(ref Unsafe.Add(ref b, Strip.Width)));
                var (cr, ci) = (T.Load(ref c), T.Load(ref Unsafe.Add(ref c, Strip.Width)));
                var (dr, di) = (T.Load(ref d), T.Load(ref Unsafe.Add(ref d, Strip.Width)));
                var (pr, pi, qr, qi) = (ar + cr, ai + ci, ar - cr, ai - ci);
                var (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
                (pr + ur).Store(ref a);
                (pi + ui).Store(ref Unsafe.Add(ref a, Strip.Width));
                Turn.Store(ref b, qr + vi, qi - vr, ref root);
                Turn.Store(ref c, pr - ur, pi - ui, ref Unsafe.Add(ref root, 2));
                Turn.Store(ref d, qr - vi, qi + vr, ref Unsafe.Add(ref root, 4));
                a = ref Unsafe.Add(ref a, T.Count);
                b = ref Unsafe.Add(ref b, T.Count);
                c = ref Unsafe.Add(ref c, T.Count);
                d = ref Unsafe.Add(ref d, T.Count);
            }

            a = ref Unsafe.Add(ref a, Strip.Width);
            b = ref Unsafe.Add(ref b, Strip.Width);
            c = ref Unsafe.Add(ref c, Strip.Width);
            d = ref Unsafe.Add(ref d, Strip.Width);
            root = ref Unsafe.Add(ref root, RootsPerPlace);
        }
    }

    /// <summary>Undoes the turns and butterflies in place, but for a factor of four.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Inverse<T>(ref double rows, nint quarter, ref double roots)
        where T : struct, ILaneMoves<T>
    {
        ref var a = ref rows;
        ref var b = ref Unsafe.Add(ref a, quarter * Strip.RowLength);
        ref var c = ref Unsafe.Add(ref b, quarter * Strip.RowLength);
        ref var d = ref Unsafe.Add(ref c, quarter * Strip.RowLength);
        ref var root = ref roots;
        for (; quarter > 0; quarter--)
        {
            for (nint column = 0; column < Strip.Width; column += T.Count)
            {
                var (ar, ai) = (T.Load(ref a), T.Load(ref Unsafe.Add(ref a, Strip.Width)));
                Turn.LoadBack(ref b, ref root, out T br, out T bi);
                Turn.LoadBack(ref c, ref Unsafe.Add(ref root, 2), out T cr, out T ci);
                Turn.LoadBack(ref d, ref Unsafe.Add(ref root, 4), out T dr, out T di);
                var (pr, pi, qr, qi) = (ar + cr, ai + ci, ar - cr, ai - ci);
                var (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
                (pr + ur).Store(ref a);
                (pi + ui).Store(ref Unsafe.Add(ref a, Strip.Width));
                (qr - vi).Store(ref b);
                (qi + vr).Store(ref Unsafe.Add(ref b, Strip.Width));
                (pr - ur).Store(ref c);
                (pi - ui).Store(ref Unsafe.Add(ref c, Strip.Width));
                (qr + vi).Store(ref d);
                (qi - vr).Store(ref Unsafe.Add(ref d, Strip.Width));
                a = ref Unsafe.Add(ref a, T.Count);
                b = ref Unsafe.Add(ref b, T.Count);
                c = ref Unsafe.Add(ref c, T.Count);
                d = ref Unsafe.Add(ref d, T.Count);
            }

            a = ref Unsafe.Add(ref a, Strip.Width);
            b = ref Unsafe.Add(ref b, Strip.Width);
            c = ref Unsafe.Add(ref c, Strip.Width);
            d = ref Unsafe.Add(ref d, Strip.Width);
            root = ref Unsafe.Add(ref root, RootsPerPlace);
        }
    }

    /// <summary>Blocks of four neighbouring rows, which need no turns, in place: forward, or backward with
    /// <paramref name="re"/> and <paramref name="im"/> changed over.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Neighbours<T>(ref double rows, nint count, nint re, nint im)
        where T : struct, ILaneMoves<T>
    {
        for (nint row = 0; row < count; row += 4)
        {
            for (nint column = 0; column < Strip.Width; column += T.Count)
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
