using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Spectral.Butterflies;

namespace DrumPrint.Dsp.Spectral;

/// <summary>
/// The discrete Fourier transform of complex signals held as real parts and imaginary parts. Planned once; transforms
/// allocate nothing. One instance serves one thread at a time.
/// </summary>
/// <remarks>The signal is written in rows of eight: transform the columns, turn each number by its root of unity, transform
/// the rows. Sources: Gentleman and Sande 1966; for the split Bailey 1990, "FFTs in external or hierarchical
/// memory".</remarks>
public sealed class ComplexFft
{
    private readonly int _lanes;
    private readonly RowFft _rowFft;
    private readonly ColumnFft? _columnFft;
    private readonly int[] _places;
    private readonly LineMemory _rows;

    /// <param name="length">1, 3 or 5 times a power of two.</param>
    /// <exception cref="ArgumentException">The length has another factor.</exception>
    public ComplexFft(int length)
        : this(length, LaneWidth.Best)
    {
    }

    internal ComplexFft(int length, int lanes)
    {
        if (!RowFft.Knows(length))
        {
            throw new ArgumentException($"A transform of {length} points is not built from 1, 3 or 5 times a power of two.", nameof(length));
        }

        Length = length;
        _lanes = lanes;
        var isLong = length % (Strip.Width * Strip.Width) == 0;
        _rowFft = new RowFft(isLong ? length / Strip.Width : length);
        _columnFft = isLong ? Columns(length) : null;
        _places = _rowFft.Places();
        _rows = new LineMemory(_rowFft.Rows * Strip.RowLength);
    }

    /// <summary>Number of points.</summary>
    public int Length { get; }

    /// <summary>X[k] = Σ x[n]·e^(−2πi·n·k/length). The output must not overlap the input.</summary>
    public void Forward(ReadOnlySpan<double> re, ReadOnlySpan<double> im, Span<double> outRe, Span<double> outIm)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(re.Length, Length);
        ArgumentOutOfRangeException.ThrowIfLessThan(im.Length, Length);
        Transform(new PlanarRows(ref MemoryMarshal.GetReference(re), ref MemoryMarshal.GetReference(im), Stride), outRe, outIm);
    }

    /// <summary>Length · x[n] = Σ X[k]·e^(+2πi·n·k/length), not divided by the length. The output must not overlap the input.</summary>
    public void InverseUnscaled(ReadOnlySpan<double> re, ReadOnlySpan<double> im, Span<double> outRe, Span<double> outIm) =>
        Forward(im, re, outIm, outRe);

    /// <summary>Distance between the rows of the source.</summary>
    internal int Stride => _columnFft is null ? 1 : Strip.Width;

    /// <summary>The forward transform of numbers brought in by a source of one's own.</summary>
    internal void Transform<TSource>(TSource source, Span<double> outRe, Span<double> outIm)
        where TSource : struct, IStripSource, allows ref struct
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(outRe.Length, Length);
        ArgumentOutOfRangeException.ThrowIfLessThan(outIm.Length, Length);
        ref var re = ref MemoryMarshal.GetReference(outRe);
        ref var im = ref MemoryMarshal.GetReference(outIm);
        if (_columnFft is null)
        {
            Short(source, ref re, ref im);
            return;
        }

        switch (_lanes)
        {
            case 8:
                Long<Lane8, TSource>(source, ref re, ref im, _columnFft);
                break;
            case 4:
                Long<Lane4, TSource>(source, ref re, ref im, _columnFft);
                break;
            case 2:
                Long<Lane2, TSource>(source, ref re, ref im, _columnFft);
                break;
            default:
                Long<Lane1, TSource>(source, ref re, ref im, _columnFft);
                break;
        }
    }

    private static ColumnFft Columns(int length)
    {
        var groups = new long[length / (Strip.Width * Strip.Width)];
        for (var group = 0; group < groups.Length; group++)
        {
            groups[group] = group * Strip.Width;
        }

        return new ColumnFft(groups, [0, 1, 2, 3, 4, 5, 6, 7], length);
    }

    // A short signal is one column of a strip.
    private void Short<TSource>(TSource source, ref double re, ref double im)
        where TSource : struct, IStripSource, allows ref struct
    {
        ref var rows = ref _rows.First;
        _rowFft.Forward<Lane1, FirstColumn<TSource>>(new FirstColumn<TSource>(source), ref rows);
        for (nint k = 0; k < Length; k++)
        {
            ref var row = ref Unsafe.Add(ref rows, (nint)_places[k] * Strip.RowLength);
            Unsafe.Add(ref re, k) = row;
            Unsafe.Add(ref im, k) = Unsafe.Add(ref row, Strip.Width);
        }
    }

    private void Long<T, TSource>(TSource source, ref double re, ref double im, ColumnFft columnFft)
        where T : struct, ILaneMoves<T>
        where TSource : struct, IStripSource, allows ref struct
    {
        ref var rows = ref _rows.First;
        _rowFft.Forward<T, TSource>(source, ref rows);
        for (var row = 0; row < _rowFft.Rows; row += Strip.Width)
        {
            columnFft.Forward<T>(
                ref rows, _places.AsSpan(row, Strip.Width), row / Strip.Width, ref Unsafe.Add(ref re, row), ref Unsafe.Add(ref im, row), _rowFft.Rows);
        }
    }
}
