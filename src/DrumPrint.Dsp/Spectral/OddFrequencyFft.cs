using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Spectral.Butterflies;

namespace DrumPrint.Dsp.Spectral;

/// <summary>
/// The transform of real signals at the frequencies halfway between the usual ones, in whatever order it falls out. Multiplying
/// two such spectra convolves with the wrapped part negated, and overlap-save throws that part away. There is no bin of its own
/// for 0 Hz or half the rate, and no sorting at all.
/// </summary>
/// <remarks>Source: the odd-frequency transform of Vernet, "Real signals fast Fourier transform: storage capacity and step
/// number reduction by means of an odd discrete Fourier transform", Proc. IEEE 59 (1971) (from memory). Of the N
/// conjugate-symmetric bins k + ½ the even-numbered N/2 are kept. These are the bins k + ¼ of the complex signal x[n] −
/// i·x[n + N/2]. The quarter of a step goes into the turns of the first pass and of the last.</remarks>
internal sealed class OddFrequencyFft
{
    /// <summary>Least number of bins.</summary>
    public const int Shortest = 256;

    private readonly int _quarter;
    private readonly double[] _roots;
    private readonly RowFft _rowFft;
    private readonly ColumnFft _columnFft;
    private readonly LineMemory _rows;

    /// <param name="half">Half the length of the real signal, and the number of bins: a power of two.</param>
    public OddFrequencyFft(int half)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(half, Shortest);
        Half = half;
        Rows = half / Strip.Width;
        _quarter = Rows / 4;
        _roots = OddButterfly4.Roots(_quarter);
        _rowFft = new RowFft(_quarter);
        _rows = new LineMemory(2 * half);
        var steps = Steps();
        var groups = new long[Rows / Strip.Width];
        for (var group = 0; group < groups.Length; group++)
        {
            groups[group] = steps[group * Strip.Width];
        }

        var members = Array.ConvertAll(steps[..Strip.Width], step => step - steps[0]);
        _columnFft = new ColumnFft(groups, members, 4L * half);
    }

    /// <summary>Half the length of the real signal, and the number of bins.</summary>
    public int Half { get; }

    /// <summary>Rows of a spectrum: eight bins each, first their real parts and then their imaginary parts.</summary>
    public int Rows { get; }

    /// <summary>Spectrum of a signal given as its two halves.</summary>
    /// <param name="first">First half of the signal.</param>
    /// <param name="second">Second half of the signal.</param>
    /// <param name="spectrum">First number of the result.</param>
    /// <param name="stride">Distance between rows of the result.</param>
    public void Forward<T>(ReadOnlySpan<double> first, ReadOnlySpan<double> second, ref double spectrum, nint stride)
        where T : struct, ILaneMoves<T>
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(first.Length, Half);
        ArgumentOutOfRangeException.ThrowIfLessThan(second.Length, Half);
        ref var rows = ref _rows.First;
        OddButterfly4.Forward<T>(
            ref MemoryMarshal.GetReference(first), ref MemoryMarshal.GetReference(second), ref rows, _quarter, ref MemoryMarshal.GetArrayDataReference(_roots));
        for (nint row = 0; row < Rows; row += _quarter)
        {
            _rowFft.Forward<T>(ref Unsafe.Add(ref rows, row * Strip.RowLength));
            for (var group = row; group < row + _quarter; group += Strip.Width)
            {
                _columnFft.Forward<T>(
                    ref Unsafe.Add(ref rows, group * Strip.RowLength), (int)(group / Strip.Width), ref Unsafe.Add(ref spectrum, group * stride), stride);
            }
        }
    }

    /// <summary>Begins the inverse with eight rows of a spectrum, which must follow one another.</summary>
    /// <param name="spectrum">First number of the eight rows.</param>
    /// <param name="group">Which eight rows they are.</param>
    /// <param name="rows">Room for all rows.</param>
    public void BeginInverse<T>(ref double spectrum, int group, Span<double> rows)
        where T : struct, ILaneMoves<T> =>
        _columnFft.Inverse<T>(ref spectrum, group, ref rows[group * Strip.Width * Strip.RowLength]);

    /// <summary>Ends the inverse once all rows have been begun: the second half of the signal, times <see cref="Half"/>.</summary>
    public void EndInverse<T>(Span<double> rows, Span<double> second)
        where T : struct, ILaneMoves<T>
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(rows.Length, 2 * Half);
        ArgumentOutOfRangeException.ThrowIfLessThan(second.Length, Half);
        ref var first = ref MemoryMarshal.GetReference(rows);
        for (nint row = 0; row < Rows; row += _quarter)
        {
            _rowFft.Inverse<T>(ref Unsafe.Add(ref first, row * Strip.RowLength));
        }

        OddButterfly4.InverseSecondHalf<T>(ref first, ref MemoryMarshal.GetReference(second), _quarter, ref MemoryMarshal.GetArrayDataReference(_roots));
    }

    // How far column 1 of each row is turned, in quarters of a step of the half-length circle: four times the frequency, and one.
    private long[] Steps()
    {
        var places = _rowFft.Places();
        var steps = new long[Rows];
        for (var frequency = 0; frequency < Rows; frequency++)
        {
            steps[(frequency % 4 * _quarter) + places[frequency / 4]] = (4L * frequency) + 1;
        }

        return steps;
    }
}
