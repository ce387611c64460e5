using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Spectral.Butterflies;

namespace DrumPrint.Dsp.Spectral;

/// <summary>
/// The second half of a long transform: rows that <see cref="RowFft"/> has transformed are turned and transformed across
/// their eight columns, eight rows at a time.
/// </summary>
/// <remarks>The root of a number is that of its group of eight rows times that of the row within the group. So the
/// tables stay small. The product adds one rounding.</remarks>
internal sealed class ColumnFft
{
    private const int Columns = Strip.Width;
    private const int GroupLength = Columns * Strip.RowLength;

    private readonly LineMemory _groups;
    private readonly LineMemory _members;
    private readonly LineMemory _turned = new(GroupLength);
    private readonly LineMemory _crossed = new(GroupLength);

    /// <param name="groups">How far column 1 is turned back in the first row of each group, in steps of the circle.</param>
    /// <param name="members">How much further it is turned in each of the eight rows of a group.</param>
    /// <param name="circle">Steps to the full circle.</param>
    public ColumnFft(ReadOnlySpan<long> groups, ReadOnlySpan<long> members, long circle)
    {
        _groups = Roots(groups, circle);
        _members = Roots(members, circle);
    }

    /// <summary>Transforms eight neighbouring rows; row k of the result holds frequency k of each of them.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Forward<T>(ref double rows, int group, ref double to, nint stride)
        where T : struct, ILaneMoves<T>
    {
        ref var roots = ref Unsafe.Add(ref _groups.First, (nint)group * Strip.RowLength);
        ref var members = ref _members.First;
        ref var crossed = ref _crossed.First;
        for (nint row = 0; row < Columns; row += 4)
        {
            var at = row * Strip.RowLength;
            ref var a = ref Unsafe.Add(ref rows, at);
            ref var b = ref Unsafe.Add(ref a, Strip.RowLength);
            ref var c = ref Unsafe.Add(ref a, 2 * Strip.RowLength);
            ref var d = ref Unsafe.Add(ref a, 3 * Strip.RowLength);
            CrossTurned<T>(ref a, ref b, ref c, ref d, ref roots, ref Unsafe.Add(ref members, at), ref Unsafe.Add(ref crossed, row));
        }

        Butterfly8.Run<T>(ref crossed, ref to, stride, 0, Columns);
    }

    /// <summary>The same for eight rows from anywhere; real and imaginary parts of the results go to separate rows.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Forward<T>(ref double rows, ReadOnlySpan<int> places, int group, ref double toRe, ref double toIm, nint stride)
        where T : struct, ILaneMoves<T>
    {
        ref var roots = ref Unsafe.Add(ref _groups.First, (nint)group * Strip.RowLength);
        ref var members = ref _members.First;
        ref var crossed = ref _crossed.First;
        for (var row = 0; row < Columns; row += 4)
        {
            ref var a = ref Unsafe.Add(ref rows, (nint)places[row] * Strip.RowLength);
            ref var b = ref Unsafe.Add(ref rows, (nint)places[row + 1] * Strip.RowLength);
            ref var c = ref Unsafe.Add(ref rows, (nint)places[row + 2] * Strip.RowLength);
            ref var d = ref Unsafe.Add(ref rows, (nint)places[row + 3] * Strip.RowLength);
            CrossTurned<T>(ref a, ref b, ref c, ref d, ref roots, ref Unsafe.Add(ref members, row * Strip.RowLength), ref Unsafe.Add(ref crossed, row));
        }

        ref var turned = ref _turned.First;
        Butterfly8.Run<T>(ref crossed, ref turned, Strip.RowLength, 0, Columns);

        // A whole line of the cache at a time: the eight results lie so that they would push each other out of it.
        for (nint row = 0; row < Columns; row++)
        {
            ref var from = ref Unsafe.Add(ref turned, row * Strip.RowLength);
            for (nint column = 0; column < Columns; column += T.Count)
            {
                T.Load(ref Unsafe.Add(ref from, column)).Store(ref Unsafe.Add(ref toRe, (row * stride) + column));
            }

            for (nint column = 0; column < Columns; column += T.Count)
            {
                T.Load(ref Unsafe.Add(ref from, Columns + column)).Store(ref Unsafe.Add(ref toIm, (row * stride) + column));
            }
        }
    }

    /// <summary>Undoes the first <see cref="Forward{T}(ref double, int, ref double, nint)"/>, times eight.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Inverse<T>(ref double from, int group, ref double rows)
        where T : struct, ILaneMoves<T>
    {
        ref var crossed = ref _crossed.First;
        Butterfly8.Run<T>(ref from, ref crossed, Strip.RowLength, Columns, 0);

        ref var roots = ref Unsafe.Add(ref _groups.First, (nint)group * Strip.RowLength);
        ref var members = ref _members.First;
        for (nint row = 0; row < Columns; row += 4)
        {
            var at = row * Strip.RowLength;
            CrossBack<T>(ref Unsafe.Add(ref crossed, row), ref roots, ref Unsafe.Add(ref members, at), ref Unsafe.Add(ref rows, at));
        }
    }

    // Cosines and then sines of 0, 1, … 7 times so many steps backwards.
    private static LineMemory Roots(ReadOnlySpan<long> steps, long circle)
    {
        var memory = new LineMemory(steps.Length * Strip.RowLength);
        var roots = memory.Span;
        for (var row = 0; row < steps.Length; row++)
        {
            for (var column = 0; column < Columns; column++)
            {
                var at = (row * Strip.RowLength) + column;
                (roots[at], roots[at + Columns]) = RootOfUnity.At(-steps[row] * column, circle);
            }
        }

        return memory;
    }

    // Turns four rows and stores them as four columns.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void CrossTurned<T>(ref double a, ref double b, ref double c, ref double d, ref double group, ref double member, ref double to)
        where T : struct, ILaneMoves<T>
    {
        for (nint column = 0; column < Columns; column += T.Count)
        {
            ref var first = ref Unsafe.Add(ref group, column);
            ref var further = ref Unsafe.Add(ref member, column);
            Turned(ref Unsafe.Add(ref a, column), ref first, ref further, out T ar, out T ai);
            Turned(ref Unsafe.Add(ref b, column), ref first, ref Unsafe.Add(ref further, Strip.RowLength), out T br, out T bi);
            Turned(ref Unsafe.Add(ref c, column), ref first, ref Unsafe.Add(ref further, 2 * Strip.RowLength), out T cr, out T ci);
            Turned(ref Unsafe.Add(ref d, column), ref first, ref Unsafe.Add(ref further, 3 * Strip.RowLength), out T dr, out T di);
            ref var crossed = ref Unsafe.Add(ref to, column * Strip.RowLength);
            T.StoreColumns(ref crossed, Strip.RowLength, ar, br, cr, dr);
            T.StoreColumns(ref Unsafe.Add(ref crossed, Columns), Strip.RowLength, ai, bi, ci, di);
        }
    }

    // Takes four columns, turns them back and stores them as four rows.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void CrossBack<T>(ref double crossed, ref double group, ref double member, ref double rows)
        where T : struct, ILaneMoves<T>
    {
        for (nint column = 0; column < Columns; column += T.Count)
        {
            ref var from = ref Unsafe.Add(ref crossed, column * Strip.RowLength);
            T.LoadColumns(ref from, Strip.RowLength, out var ar, out var br, out var cr, out var dr);
            T.LoadColumns(ref Unsafe.Add(ref from, Columns), Strip.RowLength, out var ai, out var bi, out var ci, out var di);
            ref var first = ref Unsafe.Add(ref group, column);
            ref var further = ref Unsafe.Add(ref member, column);
            ref var to = ref Unsafe.Add(ref rows, column);
            StoreTurnedBack(ar, ai, ref first, ref further, ref to);
            StoreTurnedBack(br, bi, ref first, ref Unsafe.Add(ref further, Strip.RowLength), ref Unsafe.Add(ref to, Strip.RowLength));
            StoreTurnedBack(cr, ci, ref first, ref Unsafe.Add(ref further, 2 * Strip.RowLength), ref Unsafe.Add(ref to, 2 * Strip.RowLength));
            StoreTurnedBack(dr, di, ref first, ref Unsafe.Add(ref further, 3 * Strip.RowLength), ref Unsafe.Add(ref to, 3 * Strip.RowLength));
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Turned<T>(ref double row, ref double group, ref double member, out T re, out T im)
        where T : struct, ILaneMoves<T>
    {
        Root(ref group, ref member, out T cos, out T sin);
        var (xr, xi) = (T.Load(ref row), T.Load(ref Unsafe.Add(ref row, Columns)));
        re = T.FmaNegated(xi, sin, xr * cos);
        im = T.Fma(xr, sin, xi * cos);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void StoreTurnedBack<T>(T re, T im, ref double group, ref double member, ref double to)
        where T : struct, ILaneMoves<T>
    {
        Root(ref group, ref member, out T cos, out T sin);
        T.Fma(im, sin, re * cos).Store(ref to);
        T.FmaNegated(re, sin, im * cos).Store(ref Unsafe.Add(ref to, Columns));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Root<T>(ref double group, ref double member, out T cos, out T sin)
        where T : struct, ILaneMoves<T>
    {
        var (gr, gi) = (T.Load(ref group), T.Load(ref Unsafe.Add(ref group, Columns)));
        var (mr, mi) = (T.Load(ref member), T.Load(ref Unsafe.Add(ref member, Columns)));
        cos = T.FmaNegated(gi, mi, gr * mr);
        sin = T.Fma(gr, mi, gi * mr);
    }
}
