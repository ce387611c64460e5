using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Spectral.Butterflies;

namespace DrumPrint.Dsp.Spectral;

/// <summary>
/// Transforms the eight columns of a strip at once, each column a complex signal of its own. Lanes lie across columns, so
/// no lane ever meets another.
/// </summary>
/// <remarks>Decimation in frequency (Gentleman and Sande 1966) by fours. Where the length asks for it, a two or eight stands at
/// the end and a three or five at the start. Nothing is sorted: <see cref="Places"/> says where a frequency ends up, and the
/// inverse takes it from there. A block is finished before the next is begun, so that most passes stay in the innermost
/// cache.</remarks>
internal sealed class RowFft
{
    // Rows that fit the innermost cache with room to spare.
    private const int NearRows = 128;

    private readonly int[] _radices;
    private readonly double[][] _roots;

    /// <param name="rows">1, 3 or 5 times a power of two.</param>
    public RowFft(int rows)
    {
        Rows = rows;
        _radices = Factors(rows);
        _roots = new double[_radices.Length][];
        var size = rows;
        for (var pass = 0; pass < _radices.Length; pass++)
        {
            _roots[pass] = Roots(_radices[pass], size);
            size /= _radices[pass];
        }
    }

    public int Rows { get; }

    /// <summary>Whether a length can be built from the factors known here.</summary>
    public static bool Knows(int length) => length > 0 && (length >> int.TrailingZeroCount(length)) is 1 or 3 or 5;

    /// <summary>The row in which each frequency ends up.</summary>
    public int[] Places()
    {
        var places = new int[Rows];
        for (var frequency = 0; frequency < Rows; frequency++)
        {
            var (rest, size) = (frequency, Rows);
            foreach (var radix in _radices)
            {
                size /= radix;
                places[frequency] += rest % radix * size;
                rest /= radix;
            }
        }

        return places;
    }

    /// <summary>Transforms the rows of a source into a strip.</summary>
    public void Forward<T, TSource>(TSource source, ref double rows)
        where T : struct, ILaneMoves<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        var to = new Strip(ref rows);
        switch (_radices.Length == 0 ? 1 : _radices[0])
        {
            case 3:
                Butterfly3.Forward<T, TSource>(source, to, Rows / 3, ref First(_roots[0]));
                break;
            case 4:
                Butterfly4.Forward<T, TSource>(source, to, Rows / 4, ref First(_roots[0]));
                break;
            case 5:
                Butterfly5.Forward<T, TSource>(source, to, Rows / 5, ref First(_roots[0]));
                break;
            default:
                Copy<T, TSource>(source, to);
                Deeper<T>(ref rows, 0, Rows);
                return;
        }

        Blocks<T>(ref rows, 0, Rows);
    }

    /// <summary>Transforms rows in place; their number must be a power of two.</summary>
    public void Forward<T>(ref double rows)
        where T : struct, ILaneMoves<T> =>
        Deeper<T>(ref rows, 0, Rows);

    /// <summary>Undoes <see cref="Forward{T}(ref double)"/>, times the number of rows.</summary>
    public void Inverse<T>(ref double rows)
        where T : struct, ILaneMoves<T> =>
        Back<T>(ref rows, 0, Rows);

    private static ref double First(double[] numbers) => ref MemoryMarshal.GetArrayDataReference(numbers);

    private static int[] Factors(int rows)
    {
        var twos = int.TrailingZeroCount(rows);
        var factors = new List<int>();
        if (rows >> twos > 1)
        {
            factors.Add(rows >> twos);
        }

        // An odd count of twos ends in an eight; one two alone stays a two.
        var last = twos % 2 == 0 ? 0 : Math.Min(twos, 3);
        factors.AddRange(Enumerable.Repeat(4, (twos - last) / 2));
        if (last > 0)
        {
            factors.Add(1 << last);
        }

        return [.. factors];
    }

    // For each place j of a block: cosine and sine of j, 2j, … (radix − 1)·j steps backwards.
    private static double[] Roots(int radix, int size)
    {
        var table = new double[size / radix * (radix - 1) * 2];
        var at = 0;
        for (var j = 0; j < size / radix; j++)
        {
            for (var t = 1; t < radix; t++)
            {
                (table[at], table[at + 1]) = RootOfUnity.At(-(long)j * t, size);
                at += 2;
            }
        }

        return table;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Copy<T, TSource>(TSource source, Strip to)
        where T : struct, ILaneMoves<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        for (nint row = 0; row < Rows; row++)
        {
            for (nint column = 0; column < Strip.Width; column += T.Count)
            {
                source.Load<T>(row, column, out var re, out var im);
                to.Store(row, column, re, im);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Deeper<T>(ref double rows, int pass, int count)
        where T : struct, ILaneMoves<T>
    {
        if (count <= NearRows)
        {
            Near<T>(ref rows, pass, count);
            return;
        }

        Butterfly4.Forward<T>(ref rows, count / 4, ref First(_roots[pass]));
        Blocks<T>(ref rows, pass, count);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Blocks<T>(ref double rows, int pass, int count)
        where T : struct, ILaneMoves<T>
    {
        var size = count / _radices[pass];
        if (size == 1)
        {
            return;
        }

        for (nint row = 0; row < count; row += size)
        {
            Deeper<T>(ref Unsafe.Add(ref rows, row * Strip.RowLength), pass + 1, size);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Near<T>(ref double rows, int pass, int count)
        where T : struct, ILaneMoves<T>
    {
        var last = pass < _radices.Length ? _radices[^1] : 1;
        for (var size = count; size > last; size /= 4)
        {
            ref var roots = ref First(_roots[pass++]);
            for (nint row = 0; row < count; row += size)
            {
                Butterfly4.Forward<T>(ref Unsafe.Add(ref rows, row * Strip.RowLength), size / 4, ref roots);
            }
        }

        Last<T>(ref rows, count, 0, Strip.Width);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Back<T>(ref double rows, int pass, int count)
        where T : struct, ILaneMoves<T>
    {
        if (count <= NearRows)
        {
            NearBack<T>(ref rows, count);
            return;
        }

        for (nint row = 0; row < count; row += count / 4)
        {
            Back<T>(ref Unsafe.Add(ref rows, row * Strip.RowLength), pass + 1, count / 4);
        }

        Butterfly4.Inverse<T>(ref rows, count / 4, ref First(_roots[pass]));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void NearBack<T>(ref double rows, int count)
        where T : struct, ILaneMoves<T>
    {
        Last<T>(ref rows, count, Strip.Width, 0);
        var pass = _radices.Length - 2;
        for (var size = 4 * _radices[^1]; size <= count; size *= 4)
        {
            ref var roots = ref First(_roots[pass--]);
            for (nint row = 0; row < count; row += size)
            {
                Butterfly4.Inverse<T>(ref Unsafe.Add(ref rows, row * Strip.RowLength), size / 4, ref roots);
            }
        }
    }

    // The pass whose blocks are neighbouring rows, forward or with real and imaginary parts changed over backward.
    private void Last<T>(ref double rows, int count, nint re, nint im)
        where T : struct, ILaneMoves<T>
    {
        switch (count > 1 ? _radices[^1] : 1)
        {
            case 2:
                Butterfly2.Neighbours<T>(ref rows, count);
                break;
            case 4:
                Butterfly4.Neighbours<T>(ref rows, count, re, im);
                break;
            case 8:
                for (nint row = 0; row < count; row += 8)
                {
                    ref var first = ref Unsafe.Add(ref rows, row * Strip.RowLength);
                    Butterfly8.Run<T>(ref first, ref first, Strip.RowLength, re, im);
                }

                break;
        }
    }
}
