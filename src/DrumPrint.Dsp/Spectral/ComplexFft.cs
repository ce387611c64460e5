using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>
/// The discrete Fourier transform of complex signals held as real parts and imaginary parts. Planned once; transforms
/// allocate nothing. One instance serves one thread at a time.
/// </summary>
/// <remarks>The length is split into columns × rows, both near its square root, so that each part works within the
/// innermost cache (Gentleman and Sande 1966; Bailey 1990, "FFTs in external or hierarchical memory"): transform the
/// columns strip by strip, transpose, turn each number by its root of unity, transform the rows.</remarks>
public sealed class ComplexFft
{
    private const int Width = Strip.Width;

    private readonly int _lanes;
    private readonly StripFft _first;
    private readonly StripFft? _second;
    private readonly double[] _roots = [];
    private readonly double[] _strip;

    /// <param name="length">1, 3 or 5 times a power of two.</param>
    /// <exception cref="ArgumentException">The length has another factor.</exception>
    public ComplexFft(int length)
        : this(length, LaneWidth.Best)
    {
    }

    internal ComplexFft(int length, int lanes)
    {
        if (!StripFft.Knows(length))
        {
            throw new ArgumentException($"A transform of {length} points is not built from 1, 3 or 5 times a power of two.", nameof(length));
        }

        Length = length;
        _lanes = lanes;
        if (length % (Width * Width) != 0)
        {
            _first = new StripFft(length);
            _strip = new double[2 * Strip.RowLength * length];
            return;
        }

        var twos = int.TrailingZeroCount(length);
        var columns = 1 << (twos - (twos / 2));
        var rows = length / columns;
        _first = new StripFft(columns);
        _second = new StripFft(rows);
        _strip = new double[Strip.RowLength * Math.Max(columns, rows)];
        _roots = Roots(columns, rows);
    }

    /// <summary>Number of points.</summary>
    public int Length { get; }

    /// <summary>X[k] = Σ x[n]·e^(−2πi·n·k/length). The output must not overlap the input.</summary>
    public void Forward(ReadOnlySpan<double> re, ReadOnlySpan<double> im, Span<double> outRe, Span<double> outIm)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(re.Length, Length);
        ArgumentOutOfRangeException.ThrowIfLessThan(im.Length, Length);
        Transform(
            new PlanarRows(ref MemoryMarshal.GetReference(re), ref MemoryMarshal.GetReference(im), Stride),
            outRe,
            outIm);
    }

    /// <summary>Length · x[n] = Σ X[k]·e^(+2πi·n·k/length), not divided by the length. The output must not overlap the input.</summary>
    public void InverseUnscaled(ReadOnlySpan<double> re, ReadOnlySpan<double> im, Span<double> outRe, Span<double> outIm) =>
        Forward(im, re, outIm, outRe);

    /// <summary>Distance between the rows the first pass reads.</summary>
    internal int Stride => _second?.Length ?? 1;

    /// <summary>The forward transform of numbers brought in by a source of one's own.</summary>
    internal void Transform<TSource>(scoped in TSource source, Span<double> outRe, Span<double> outIm)
        where TSource : struct, IStripSource, allows ref struct
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(outRe.Length, Length);
        ArgumentOutOfRangeException.ThrowIfLessThan(outIm.Length, Length);
        ref var re = ref MemoryMarshal.GetReference(outRe);
        ref var im = ref MemoryMarshal.GetReference(outIm);
        if (_second is null)
        {
            Short(source, ref re, ref im);
            return;
        }

        switch (_lanes)
        {
            case 8:
                Long<Lane8, TSource>(source, ref re, ref im, _second);
                break;
            case 4:
                Long<Lane4, TSource>(source, ref re, ref im, _second);
                break;
            case 2:
                Long<Lane2, TSource>(source, ref re, ref im, _second);
                break;
            default:
                Long<Lane1, TSource>(source, ref re, ref im, _second);
                break;
        }
    }

    // A short signal is one column of a strip.
    private void Short<TSource>(scoped in TSource source, ref double re, ref double im)
        where TSource : struct, IStripSource, allows ref struct
    {
        var strip = new Strip(ref MemoryMarshal.GetArrayDataReference(_strip));
        var rows = new Strip(ref _strip[Strip.RowLength * Length]);
        for (nint n = 0; n < Length; n++)
        {
            source.Load<Lane1>(n, 0, out var r, out var i);
            rows.Store(n, 0, r, i);
        }

        _first.Run<Lane1, Strip, Strip>(rows, 0, strip, strip);
        for (nint n = 0; n < Length; n++)
        {
            strip.Load<Lane1>(n, 0, out var r, out var i);
            r.Store(ref Unsafe.Add(ref re, n));
            i.Store(ref Unsafe.Add(ref im, n));
        }
    }

    private void Long<T, TSource>(scoped in TSource source, ref double re, ref double im, StripFft second)
        where T : struct, ILane<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        nint columns = _first.Length;
        nint rows = second.Length;
        ref var room = ref MemoryMarshal.GetArrayDataReference(_strip);
        var strip = new Strip(ref room);
        for (nint column = 0; column < rows; column += Width)
        {
            _first.Run<T, TSource, Strip>(source, column, strip, strip);
            var at = column * columns;
            Turn(ref room, columns, ref Unsafe.Add(ref re, at));
            Turn(ref Unsafe.Add(ref room, Width), columns, ref Unsafe.Add(ref im, at));
        }

        ref var roots = ref MemoryMarshal.GetArrayDataReference(_roots);
        for (nint column = 0; column < columns; column += Width)
        {
            ref var columnRe = ref Unsafe.Add(ref re, column);
            ref var columnIm = ref Unsafe.Add(ref im, column);
            var turned = new TurnedRows(ref columnRe, ref columnIm, columns, ref Unsafe.Add(ref roots, 2 * rows * column));
            second.Run<T, TurnedRows, PlanarRows>(turned, 0, strip, new PlanarRows(ref columnRe, ref columnIm, columns));
        }
    }

    // Writes a strip of eight columns (rows 16 apart) as eight rows: moves numbers only.
    private static void Turn(ref double strip, nint rows, ref double to)
    {
        for (nint row = 0; row < rows; row += 4)
        {
            for (nint column = 0; column < Width; column += 4)
            {
                Tile.Transpose(ref Unsafe.Add(ref strip, (Strip.RowLength * row) + column), Strip.RowLength, ref Unsafe.Add(ref to, (column * rows) + row), rows);
            }
        }
    }

    // e^(−2πi·c·k/length) for row c of the second stage and its column k, in strips of eight columns.
    private static double[] Roots(int columns, int rows)
    {
        var roots = new double[2 * columns * rows];
        var at = 0;
        for (var strip = 0; strip < columns; strip += Width)
        {
            for (var c = 0; c < rows; c++)
            {
                for (var lane = 0; lane < Width; lane++)
                {
                    (roots[at + lane], roots[at + Width + lane]) = RootOfUnity.At(-(long)c * (strip + lane), (long)columns * rows);
                }

                at += 2 * Width;
            }
        }

        return roots;
    }
}
