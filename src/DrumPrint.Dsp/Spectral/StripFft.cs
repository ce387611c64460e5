using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>
/// Transforms a narrow strip of columns at once, each column a complex signal of its own. Lanes lie across columns, so no
/// lane ever meets another.
/// </summary>
/// <remarks>Decimation in time by factors 2, 3, 4, 5 and 8 (Cooley and Tukey 1965): the first pass reads rows in
/// digit-reversed order, the others work in place. In the strip a row holds its real parts and then its imaginary parts.</remarks>
internal sealed class StripFft
{
    /// <summary>Columns of a full strip: one cache line, and a multiple of every lane width.</summary>
    public const int FullWidth = 8;

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

    /// <summary>Transforms the rows of a source into the strip, rows of the result in natural order.</summary>
    /// <param name="source">Rows of the input.</param>
    /// <param name="left">First column to read.</param>
    /// <param name="strip">2 · width · length numbers.</param>
    /// <param name="width">Columns, a multiple of the lane's width.</param>
    public void Run<T, TSource>(scoped in TSource source, int left, ref double strip, int width)
        where T : struct, ILane<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        switch (_radices[0])
        {
            case 2:
                First2<T, TSource>(source, left, ref strip, width);
                break;
            case 3:
                First3<T, TSource>(source, left, ref strip, width);
                break;
            case 4:
                First4<T, TSource>(source, left, ref strip, width);
                break;
            case 5:
                First5<T, TSource>(source, left, ref strip, width);
                break;
            case 8:
                First8<T, TSource>(source, left, ref strip, width);
                break;
            default:
                First1<T, TSource>(source, left, ref strip, width);
                break;
        }

        var size = _radices[0];
        for (var pass = 1; pass < _radices.Length; pass++)
        {
            if (_radices[pass] == 4)
            {
                Next4<T>(ref strip, size, _twiddles[pass], width);
            }
            else
            {
                Next2<T>(ref strip, size, _twiddles[pass], width);
            }

            size *= _radices[pass];
        }
    }

    private static int[] Factors(int length)
    {
        var factors = new List<int>();
        var twos = int.TrailingZeroCount(length);
        var odd = length >> twos;
        if (odd > 1 || twos == 0)
        {
            factors.Add(odd);
        }
        else if (twos == 1)
        {
            factors.Add(2);
            twos = 0;
        }
        else
        {
            factors.Add((twos & 1) == 0 ? 4 : 8);
            twos -= (twos & 1) == 0 ? 2 : 3;
        }

        for (; twos >= 2; twos -= 2)
        {
            factors.Add(4);
        }

        if (twos == 1)
        {
            factors.Add(2);
        }

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

    private void First1<T, TSource>(scoped in TSource source, int left, ref double strip, int width)
        where T : struct, ILane<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        for (var row = 0; row < Length; row++)
        {
            for (var column = 0; column < width; column += T.Width)
            {
                source.Load<T>(_firstRows[row], left + column, out var re, out var im);
                Store(ref Unsafe.Add(ref strip, (2 * width * row) + column), width, re, im);
            }
        }
    }

    private void First2<T, TSource>(scoped in TSource source, int left, ref double strip, int width)
        where T : struct, ILane<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        var step = Length / 2;
        for (var group = 0; group < _firstRows.Length; group++)
        {
            var row = _firstRows[group];
            for (var column = 0; column < width; column += T.Width)
            {
                source.Load<T>(row, left + column, out var ar, out var ai);
                source.Load<T>(row + step, left + column, out var br, out var bi);
                ref var to = ref Unsafe.Add(ref strip, (4 * width * group) + column);
                Store(ref to, width, ar + br, ai + bi);
                Store(ref Unsafe.Add(ref to, 2 * width), width, ar - br, ai - bi);
            }
        }
    }

    private void First3<T, TSource>(scoped in TSource source, int left, ref double strip, int width)
        where T : struct, ILane<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        var step = Length / 3;
        var half = T.Of(0.5);
        var sin = T.Of(0.8660254037844387); // sin 60°
        for (var group = 0; group < _firstRows.Length; group++)
        {
            var row = _firstRows[group];
            for (var column = 0; column < width; column += T.Width)
            {
                source.Load<T>(row, left + column, out var ar, out var ai);
                source.Load<T>(row + step, left + column, out var br, out var bi);
                source.Load<T>(row + (2 * step), left + column, out var cr, out var ci);
                var (sr, si) = (br + cr, bi + ci);
                var (dr, di) = ((br - cr) * sin, (bi - ci) * sin);
                var (mr, mi) = (ar - (sr * half), ai - (si * half));
                ref var to = ref Unsafe.Add(ref strip, (6 * width * group) + column);
                Store(ref to, width, ar + sr, ai + si);
                Store(ref Unsafe.Add(ref to, 2 * width), width, mr + di, mi - dr);
                Store(ref Unsafe.Add(ref to, 4 * width), width, mr - di, mi + dr);
            }
        }
    }

    private void First4<T, TSource>(scoped in TSource source, int left, ref double strip, int width)
        where T : struct, ILane<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        var step = Length / 4;
        for (var group = 0; group < _firstRows.Length; group++)
        {
            var row = _firstRows[group];
            for (var column = 0; column < width; column += T.Width)
            {
                source.Load<T>(row, left + column, out var ar, out var ai);
                source.Load<T>(row + step, left + column, out var br, out var bi);
                source.Load<T>(row + (2 * step), left + column, out var cr, out var ci);
                source.Load<T>(row + (3 * step), left + column, out var dr, out var di);
                Store4(ref Unsafe.Add(ref strip, (8 * width * group) + column), 2 * width, width, ar, ai, br, bi, cr, ci, dr, di);
            }
        }
    }

    private void First5<T, TSource>(scoped in TSource source, int left, ref double strip, int width)
        where T : struct, ILane<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        var step = Length / 5;
        var c1 = T.Of(0.30901699437494745);  // cos 72°
        var c2 = T.Of(-0.8090169943749475);  // cos 144°
        var s1 = T.Of(0.9510565162951535);   // sin 72°
        var s2 = T.Of(0.5877852522924731);   // sin 144°
        for (var group = 0; group < _firstRows.Length; group++)
        {
            var row = _firstRows[group];
            for (var column = 0; column < width; column += T.Width)
            {
                source.Load<T>(row, left + column, out var ar, out var ai);
                source.Load<T>(row + step, left + column, out var br, out var bi);
                source.Load<T>(row + (2 * step), left + column, out var cr, out var ci);
                source.Load<T>(row + (3 * step), left + column, out var dr, out var di);
                source.Load<T>(row + (4 * step), left + column, out var er, out var ei);
                var (pr, pi, qr, qi) = (br + er, bi + ei, br - er, bi - ei);
                var (ur, ui, vr, vi) = (cr + dr, ci + di, cr - dr, ci - di);
                var (mr, mi) = (ar + ((pr * c1) + (ur * c2)), ai + ((pi * c1) + (ui * c2)));
                var (nr, ni) = (ar + ((pr * c2) + (ur * c1)), ai + ((pi * c2) + (ui * c1)));
                var (xr, xi) = ((qr * s1) + (vr * s2), (qi * s1) + (vi * s2));
                var (yr, yi) = ((qr * s2) - (vr * s1), (qi * s2) - (vi * s1));
                ref var to = ref Unsafe.Add(ref strip, (10 * width * group) + column);
                Store(ref to, width, ar + (pr + ur), ai + (pi + ui));
                Store(ref Unsafe.Add(ref to, 2 * width), width, mr + xi, mi - xr);
                Store(ref Unsafe.Add(ref to, 4 * width), width, nr + yi, ni - yr);
                Store(ref Unsafe.Add(ref to, 6 * width), width, nr - yi, ni + yr);
                Store(ref Unsafe.Add(ref to, 8 * width), width, mr - xi, mi + xr);
            }
        }
    }

    private void First8<T, TSource>(scoped in TSource source, int left, ref double strip, int width)
        where T : struct, ILane<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        var step = Length / 8;
        var root = T.Of(0.7071067811865476);
        for (var group = 0; group < _firstRows.Length; group++)
        {
            var row = _firstRows[group];
            for (var column = 0; column < width; column += T.Width)
            {
                // Odd rows first: their four results, turned by 0, 45, 90 and 135 degrees, meet those of the even rows.
                source.Load<T>(row + step, left + column, out var ar, out var ai);
                source.Load<T>(row + (3 * step), left + column, out var br, out var bi);
                source.Load<T>(row + (5 * step), left + column, out var cr, out var ci);
                source.Load<T>(row + (7 * step), left + column, out var dr, out var di);
                var (pr, pi, qr, qi) = (ar + cr, ai + ci, ar - cr, ai - ci);
                var (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
                var (o0r, o0i) = (pr + ur, pi + ui);
                var (o2r, o2i) = (pi - ui, ur - pr);
                var (fr, fi, gr, gi) = (qr + vi, qi - vr, qr - vi, qi + vr);
                var (o1r, o1i) = ((fr + fi) * root, (fi - fr) * root);
                var (o3r, o3i) = ((gi - gr) * root, (gr + gi) * root);

                source.Load(row, left + column, out ar, out ai);
                source.Load(row + (2 * step), left + column, out br, out bi);
                source.Load(row + (4 * step), left + column, out cr, out ci);
                source.Load(row + (6 * step), left + column, out dr, out di);
                (pr, pi, qr, qi) = (ar + cr, ai + ci, ar - cr, ai - ci);
                (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
                var (e0r, e0i, e2r, e2i) = (pr + ur, pi + ui, pr - ur, pi - ui);
                var (e1r, e1i, e3r, e3i) = (qr + vi, qi - vr, qr - vi, qi + vr);

                ref var to = ref Unsafe.Add(ref strip, (16 * width * group) + column);
                Store(ref to, width, e0r + o0r, e0i + o0i);
                Store(ref Unsafe.Add(ref to, 8 * width), width, e0r - o0r, e0i - o0i);
                Store(ref Unsafe.Add(ref to, 2 * width), width, e1r + o1r, e1i + o1i);
                Store(ref Unsafe.Add(ref to, 10 * width), width, e1r - o1r, e1i - o1i);
                Store(ref Unsafe.Add(ref to, 4 * width), width, e2r + o2r, e2i + o2i);
                Store(ref Unsafe.Add(ref to, 12 * width), width, e2r - o2r, e2i - o2i);
                Store(ref Unsafe.Add(ref to, 6 * width), width, e3r + o3r, e3i - o3i);
                Store(ref Unsafe.Add(ref to, 14 * width), width, e3r - o3r, e3i + o3i);
            }
        }
    }

    private void Next2<T>(ref double strip, int size, double[] twiddles, int width)
        where T : struct, ILane<T>
    {
        var block = 2 * width * size;
        var end = 2 * width * Length;
        for (var j = 0; j < size; j++)
        {
            var wr = T.Of(twiddles[2 * j]);
            var wi = T.Of(twiddles[(2 * j) + 1]);
            for (var start = 2 * width * j; start < end; start += 2 * block)
            {
                for (var column = 0; column < width; column += T.Width)
                {
                    ref var a = ref Unsafe.Add(ref strip, start + column);
                    ref var b = ref Unsafe.Add(ref a, block);
                    var ar = T.Load(ref a);
                    var ai = T.Load(ref Unsafe.Add(ref a, width));
                    LoadTurned(ref b, width, wr, wi, out var br, out var bi);
                    Store(ref a, width, ar + br, ai + bi);
                    Store(ref b, width, ar - br, ai - bi);
                }
            }
        }
    }

    private void Next4<T>(ref double strip, int size, double[] twiddles, int width)
        where T : struct, ILane<T>
    {
        var block = 2 * width * size;
        var end = 2 * width * Length;
        for (var j = 0; j < size; j++)
        {
            var w1r = T.Of(twiddles[6 * j]);
            var w1i = T.Of(twiddles[(6 * j) + 1]);
            var w2r = T.Of(twiddles[(6 * j) + 2]);
            var w2i = T.Of(twiddles[(6 * j) + 3]);
            var w3r = T.Of(twiddles[(6 * j) + 4]);
            var w3i = T.Of(twiddles[(6 * j) + 5]);
            for (var start = 2 * width * j; start < end; start += 4 * block)
            {
                for (var column = 0; column < width; column += T.Width)
                {
                    ref var a = ref Unsafe.Add(ref strip, start + column);
                    var ar = T.Load(ref a);
                    var ai = T.Load(ref Unsafe.Add(ref a, width));
                    LoadTurned(ref Unsafe.Add(ref a, block), width, w1r, w1i, out var br, out var bi);
                    LoadTurned(ref Unsafe.Add(ref a, 2 * block), width, w2r, w2i, out var cr, out var ci);
                    LoadTurned(ref Unsafe.Add(ref a, 3 * block), width, w3r, w3i, out var dr, out var di);
                    Store4(ref a, block, width, ar, ai, br, bi, cr, ci, dr, di);
                }
            }
        }
    }

    // Four-point transform of a, b, c, d, stored in steps of the given stride.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store4<T>(ref double to, int stride, int width, T ar, T ai, T br, T bi, T cr, T ci, T dr, T di)
        where T : struct, ILane<T>
    {
        var pr = ar + cr;
        var pi = ai + ci;
        var qr = ar - cr;
        var qi = ai - ci;
        var ur = br + dr;
        var ui = bi + di;
        var vr = br - dr;
        var vi = bi - di;
        Store(ref to, width, pr + ur, pi + ui);
        Store(ref Unsafe.Add(ref to, stride), width, qr + vi, qi - vr);
        Store(ref Unsafe.Add(ref to, 2 * stride), width, pr - ur, pi - ui);
        Store(ref Unsafe.Add(ref to, 3 * stride), width, qr - vi, qi + vr);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void LoadTurned<T>(ref double from, int width, T wr, T wi, out T re, out T im)
        where T : struct, ILane<T>
    {
        var xr = T.Load(ref from);
        var xi = T.Load(ref Unsafe.Add(ref from, width));
        re = (xr * wr) - (xi * wi);
        im = (xr * wi) + (xi * wr);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store<T>(ref double to, int width, T re, T im)
        where T : struct, ILane<T>
    {
        re.Store(ref to);
        im.Store(ref Unsafe.Add(ref to, width));
    }
}
