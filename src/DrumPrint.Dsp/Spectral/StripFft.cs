using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Spectral.Butterflies;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>
/// Transforms the eight columns of a strip at once, each column a complex signal of its own. Lanes lie across columns, so
/// no lane ever meets another.
/// </summary>
/// <remarks>Decimation in time by factors 2, 3, 4, 5 and 8 (Cooley and Tukey 1965): the first pass reads rows in
/// digit-reversed order, the others work in place, and the last may write elsewhere.</remarks>
internal sealed class StripFft
{
    private readonly int[] _radices;
    private readonly int[] _firstRows;
    private readonly double[][] _twiddles;

    /// <param name="length">1, 3 or 5 times a power of two.</param>
    public StripFft(int length)
    {
        Length = length;
        _radices = Factors(length);
        _firstRows = FirstRows(length, _radices);
        _twiddles = new double[_radices.Length][];
        var size = 1;
        for (var pass = 0; pass < _radices.Length; pass++)
        {
            _twiddles[pass] = pass == 0 ? [] : Twiddles(_radices[pass], size);
            size *= _radices[pass];
        }
    }

    public int Length { get; }

    /// <summary>Whether a length can be built from the factors known here.</summary>
    public static bool Knows(int length) => length > 0 && (length >> int.TrailingZeroCount(length)) is 1 or 3 or 5;

    /// <summary>Transforms eight columns of a source into a target, rows of the result in natural order.</summary>
    /// <param name="source">Rows of the input.</param>
    /// <param name="left">First column to read.</param>
    /// <param name="strip">Room to work in.</param>
    /// <param name="target">Where the result goes; the strip itself, if one likes.</param>
    public void Run<T, TSource, TTarget>(scoped in TSource source, nint left, scoped in Strip strip, scoped in TTarget target)
        where T : struct, ILane<T>
        where TSource : struct, IStripSource, allows ref struct
        where TTarget : struct, IStripTarget, allows ref struct
    {
        var last = _radices.Length - 1;
        if (last == 0)
        {
            First<T, TSource, TTarget>(source, left, target);
            return;
        }

        First<T, TSource, Strip>(source, left, strip);
        var size = _radices[0];
        for (var pass = 1; pass < last; pass++)
        {
            Next<T, Strip>(pass, size, strip, strip);
            size *= _radices[pass];
        }

        Next<T, TTarget>(last, size, strip, target);
    }

    // Odd factor first, since only the first pass knows it; then eights, and fours to make up the count of twos.
    private static int[] Factors(int length)
    {
        var twos = int.TrailingZeroCount(length);
        var odd = length >> twos;
        var factors = new List<int>();
        if (odd > 1 || twos == 0)
        {
            factors.Add(odd);
        }

        while (twos is 1 or 2 or 4)
        {
            factors.Add(twos == 1 ? 2 : 4);
            twos -= twos == 1 ? 1 : 2;
        }

        for (; twos % 3 != 0; twos -= 2)
        {
            factors.Add(4);
        }

        factors.AddRange(Enumerable.Repeat(8, twos / 3));
        return [.. factors];
    }

    // The row that each group of the first pass starts from; the rest follow in steps of length / first factor.
    private static int[] FirstRows(int length, int[] radices)
    {
        var rows = new int[length / radices[0]];
        for (var group = 0; group < rows.Length; group++)
        {
            var (place, block, row, weight) = (group * radices[0], length, 0, 1);
            for (var pass = radices.Length - 1; pass > 0; pass--)
            {
                block /= radices[pass];
                row += place / block * weight;
                place %= block;
                weight *= radices[pass];
            }

            rows[group] = row;
        }

        return rows;
    }

    // For each place j in a block of the given size: cosine and sine of j, 2j, … (radix − 1)·j steps backwards.
    private static double[] Twiddles(int radix, int size)
    {
        var table = new double[size * (radix - 1) * 2];
        var at = 0;
        for (var j = 0; j < size; j++)
        {
            for (var t = 1; t < radix; t++)
            {
                (table[at], table[at + 1]) = RootOfUnity.At(-(long)j * t, (long)size * radix);
                at += 2;
            }
        }

        return table;
    }

    private void First<T, TSource, TTarget>(scoped in TSource source, nint left, scoped in TTarget target)
        where T : struct, ILane<T>
        where TSource : struct, IStripSource, allows ref struct
        where TTarget : struct, IStripTarget, allows ref struct
    {
        var legs = new SourceLegs<TSource>(source, left, ref MemoryMarshal.GetArrayDataReference(_firstRows), _radices[0], Length);
        switch (_radices[0])
        {
            case 2:
                Butterfly2.Pass<T, SourceLegs<TSource>, TTarget>(legs, target, 1, Length);
                break;
            case 3:
                Butterfly3.Pass<T, SourceLegs<TSource>, TTarget>(legs, target, 1, Length);
                break;
            case 4:
                Butterfly4.Pass<T, SourceLegs<TSource>, TTarget>(legs, target, 1, Length);
                break;
            case 5:
                Butterfly5.Pass<T, SourceLegs<TSource>, TTarget>(legs, target, 1, Length);
                break;
            case 8:
                Butterfly8.Pass<T, SourceLegs<TSource>, TTarget>(legs, target, 1, Length);
                break;
            default:
                Butterfly1.Pass<T, SourceLegs<TSource>, TTarget>(legs, target, 1, Length);
                break;
        }
    }

    private void Next<T, TTarget>(int pass, int size, scoped in Strip strip, scoped in TTarget target)
        where T : struct, ILane<T>
        where TTarget : struct, IStripTarget, allows ref struct
    {
        var legs = new StripLegs(strip, ref MemoryMarshal.GetArrayDataReference(_twiddles[pass]), _radices[pass], size);
        switch (_radices[pass])
        {
            case 2:
                Butterfly2.Pass<T, StripLegs, TTarget>(legs, target, size, Length);
                break;
            case 4:
                Butterfly4.Pass<T, StripLegs, TTarget>(legs, target, size, Length);
                break;
            default:
                Butterfly8.Pass<T, StripLegs, TTarget>(legs, target, size, Length);
                break;
        }
    }
}
