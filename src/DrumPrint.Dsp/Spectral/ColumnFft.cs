using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Spectral.Butterflies;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>
/// The second half of a long transform: rows that <see cref="RowFft"/> has transformed are turned and transformed across
/// their eight columns, eight rows at a time.
/// </summary>
/// <remarks>The root of a number is that of its group of eight rows times that of the row within the group, so that the
/// tables stay small; the product adds one rounding.</remarks>
internal sealed class ColumnFft
{
    private const int Columns = Strip.Width;
    private const int GroupLength = Columns * Strip.RowLength;

    private readonly double[] _groups;
    private readonly double[] _members;
    private readonly double[] _turned = new double[GroupLength];
    private readonly double[] _crossed = new double[GroupLength];

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
        where T : struct, ILane<T>
    {
        ref var turned = ref First(_turned);
        ref var roots = ref Unsafe.Add(ref First(_groups), (nint)group * Strip.RowLength);
        ref var members = ref First(_members);
        for (nint at = 0; at < GroupLength; at += Strip.RowLength)
        {
            Turn<T>(ref Unsafe.Add(ref rows, at), ref roots, ref Unsafe.Add(ref members, at), ref Unsafe.Add(ref turned, at));
        }

        ref var crossed = ref First(_crossed);
        Cross(ref turned, ref crossed);
        for (nint column = 0; column < Columns; column += T.Width)
        {
            ref var re = ref Unsafe.Add(ref to, column);
            Butterfly8.Run<T>(ref Unsafe.Add(ref crossed, column), ref re, ref Unsafe.Add(ref re, Columns), stride, 0, Columns);
        }
    }

    /// <summary>The same for eight rows from anywhere; real and imaginary parts of the results go to separate rows.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Forward<T>(ref double rows, ReadOnlySpan<int> places, int group, ref double toRe, ref double toIm, nint stride)
        where T : struct, ILane<T>
    {
        ref var turned = ref First(_turned);
        ref var roots = ref Unsafe.Add(ref First(_groups), (nint)group * Strip.RowLength);
        ref var members = ref First(_members);
        ref var place = ref MemoryMarshal.GetReference(places);
        for (nint row = 0; row < Columns; row++)
        {
            var at = row * Strip.RowLength;
            ref var from = ref Unsafe.Add(ref rows, (nint)Unsafe.Add(ref place, row) * Strip.RowLength);
            Turn<T>(ref from, ref roots, ref Unsafe.Add(ref members, at), ref Unsafe.Add(ref turned, at));
        }

        ref var crossed = ref First(_crossed);
        Cross(ref turned, ref crossed);
        for (nint column = 0; column < Columns; column += T.Width)
        {
            ref var re = ref Unsafe.Add(ref turned, column);
            Butterfly8.Run<T>(ref Unsafe.Add(ref crossed, column), ref re, ref Unsafe.Add(ref re, Columns), Strip.RowLength, 0, Columns);
        }

        // A whole line of the cache at a time: the eight results lie so that they would push each other out of it.
        for (nint row = 0; row < Columns; row++)
        {
            ref var from = ref Unsafe.Add(ref turned, row * Strip.RowLength);
            for (nint column = 0; column < Columns; column += T.Width)
            {
                T.Load(ref Unsafe.Add(ref from, column)).Store(ref Unsafe.Add(ref toRe, (row * stride) + column));
            }

            for (nint column = 0; column < Columns; column += T.Width)
            {
                T.Load(ref Unsafe.Add(ref from, Columns + column)).Store(ref Unsafe.Add(ref toIm, (row * stride) + column));
            }
        }
    }

    /// <summary>Undoes the first <see cref="Forward{T}(ref double, int, ref double, nint)"/>, times eight.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Inverse<T>(ref double from, int group, ref double rows)
        where T : struct, ILane<T>
    {
        ref var crossed = ref First(_crossed);
        for (nint column = 0; column < Columns; column += T.Width)
        {
            ref var re = ref Unsafe.Add(ref crossed, column);
            Butterfly8.Run<T>(ref Unsafe.Add(ref from, column), ref Unsafe.Add(ref re, Columns), ref re, Strip.RowLength, Columns, 0);
        }

        ref var turned = ref First(_turned);
        Cross(ref crossed, ref turned);
        ref var roots = ref Unsafe.Add(ref First(_groups), (nint)group * Strip.RowLength);
        ref var members = ref First(_members);
        for (nint at = 0; at < GroupLength; at += Strip.RowLength)
        {
            TurnBack<T>(ref Unsafe.Add(ref turned, at), ref roots, ref Unsafe.Add(ref members, at), ref Unsafe.Add(ref rows, at));
        }
    }

    private static ref double First(double[] numbers) => ref MemoryMarshal.GetArrayDataReference(numbers);

    // Cosines and then sines of 0, 1, … 7 times so many steps backwards.
    private static double[] Roots(ReadOnlySpan<long> steps, long circle)
    {
        var roots = new double[steps.Length * Strip.RowLength];
        for (var row = 0; row < steps.Length; row++)
        {
            for (var column = 0; column < Columns; column++)
            {
                var at = (row * Strip.RowLength) + column;
                (roots[at], roots[at + Columns]) = RootOfUnity.At(-steps[row] * column, circle);
            }
        }

        return roots;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Turn<T>(ref double row, ref double group, ref double member, ref double to)
        where T : struct, ILane<T>
    {
        for (nint column = 0; column < Columns; column += T.Width)
        {
            Root(ref Unsafe.Add(ref group, column), ref Unsafe.Add(ref member, column), out T cos, out T sin);
            var (re, im) = (T.Load(ref Unsafe.Add(ref row, column)), T.Load(ref Unsafe.Add(ref row, Columns + column)));
            T.FmaNegated(im, sin, re * cos).Store(ref Unsafe.Add(ref to, column));
            T.Fma(re, sin, im * cos).Store(ref Unsafe.Add(ref to, Columns + column));
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void TurnBack<T>(ref double row, ref double group, ref double member, ref double to)
        where T : struct, ILane<T>
    {
        for (nint column = 0; column < Columns; column += T.Width)
        {
            Root(ref Unsafe.Add(ref group, column), ref Unsafe.Add(ref member, column), out T cos, out T sin);
            var (re, im) = (T.Load(ref Unsafe.Add(ref row, column)), T.Load(ref Unsafe.Add(ref row, Columns + column)));
            T.Fma(im, sin, re * cos).Store(ref Unsafe.Add(ref to, column));
            T.FmaNegated(re, sin, im * cos).Store(ref Unsafe.Add(ref to, Columns + column));
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Root<T>(ref double group, ref double member, out T cos, out T sin)
        where T : struct, ILane<T>
    {
        var (gr, gi) = (T.Load(ref group), T.Load(ref Unsafe.Add(ref group, Columns)));
        var (mr, mi) = (T.Load(ref member), T.Load(ref Unsafe.Add(ref member, Columns)));
        cos = T.FmaNegated(gi, mi, gr * mr);
        sin = T.Fma(gr, mi, gi * mr);
    }

    // Rows become columns: moves numbers only.
    private static void Cross(ref double from, ref double to)
    {
        for (nint part = 0; part < Strip.RowLength; part += Columns)
        {
            for (nint row = 0; row < Columns; row += 4)
            {
                for (nint column = 0; column < Columns; column += 4)
                {
                    Tile.Transpose(
                        ref Unsafe.Add(ref from, (row * Strip.RowLength) + part + column),
                        Strip.RowLength,
                        ref Unsafe.Add(ref to, (column * Strip.RowLength) + part + row),
                        Strip.RowLength);
                }
            }
        }
    }
}
