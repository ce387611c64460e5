using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Spectral.Butterflies;

namespace DrumPrint.Dsp.Spectral;

/// <summary>
/// A matrix of long filters, run by overlap-save on blocks of one fixed length. Every filter is cut into parts of that
/// length. The spectra of past inputs meet the spectra of the parts.
/// </summary>
/// <remarks>Sources: Stockham, "High-speed convolution and correlation" (1966), for the block transform. Kulp, "Digital
/// equalization using Fourier transform techniques", AES Convention 85 (1988), for equal parts. Both from memory. Input spectra
/// are shared by all paths. Row by row, eight bins of all parts lie together, so that memory is read in one straight
/// run.</remarks>
public sealed class PartitionedConvolver
{
    private readonly OddFrequencyFft _fft;
    private readonly int _parts;
    private readonly int _lanes;
    private readonly int _inputStride;
    private readonly PartitionedFilters _filters;
    private readonly LineMemory _spectra;
    private readonly double[][] _previous;
    private readonly LineMemory[] _rows;
    private readonly LineMemory _sums = new(Strip.Width * Strip.RowLength);
    private readonly ConvolutionPath[][] _paths;
    private int _newest;

    /// <param name="filters">Impulse responses of one length.</param>
    /// <param name="paths">Which input goes through which filter to which output.</param>
    /// <param name="block">Frames per block: a power of two, at least 256.</param>
    public PartitionedConvolver(double[][] filters, ConvolutionPath[] paths, int block)
        : this(filters, paths, block, LaneWidth.Best)
    {
    }

    internal PartitionedConvolver(double[][] filters, ConvolutionPath[] paths, int block, int lanes)
        : this(new PartitionedFilters(filters, block, lanes), paths)
    {
    }

    internal PartitionedConvolver(PartitionedFilters filters, ConvolutionPath[] paths)
    {
        (Block, _lanes, _parts, _filters) = (filters.Block, filters.Lanes, filters.Parts, filters);
        _fft = new OddFrequencyFft(Block);
        var inputs = paths.Max(p => p.Input) + 1;
        var outputs = paths.Max(p => p.Output) + 1;
        _inputStride = inputs * _parts * Strip.RowLength;
        _spectra = new LineMemory(_fft.Rows * _inputStride);
        _previous = Buffers(inputs, Block);
        _rows = [.. Enumerable.Range(0, outputs).Select(_ => new LineMemory(2 * Block))];
        _paths = [.. Enumerable.Range(0, outputs).Select(output => paths.Where(p => p.Output == output).ToArray())];
    }

    public int Block { get; }

    /// <summary>Takes the next block of every input and gives the same block of every output.</summary>
    /// <param name="inputs">The blocks, which are kept: each array is exchanged for another to fill.</param>
    /// <param name="outputs">Where the results go.</param>
    public void Process(double[][] inputs, double[][] outputs)
    {
        switch (_lanes)
        {
            case 8:
                Process<Lane8>(inputs, outputs);
                break;
            case 4:
                Process<Lane4>(inputs, outputs);
                break;
            case 2:
                Process<Lane2>(inputs, outputs);
                break;
            default:
                Process<Lane1>(inputs, outputs);
                break;
        }
    }

    /// <summary>Takes the next block of every input and gives nothing.</summary>
    /// <param name="inputs">The blocks, which are kept: each array is exchanged for another to fill.</param>
    public void TakeIn(double[][] inputs)
    {
        switch (_lanes)
        {
            case 8:
                TakeIn<Lane8>(inputs);
                break;
            case 4:
                TakeIn<Lane4>(inputs);
                break;
            case 2:
                TakeIn<Lane2>(inputs);
                break;
            default:
                TakeIn<Lane1>(inputs);
                break;
        }
    }

    private static double[][] Buffers(int count, int length) => [.. Enumerable.Range(0, count).Select(_ => new double[length])];

    private void Process<T>(double[][] inputs, double[][] outputs)
        where T : struct, ILaneMoves<T>
    {
        TakeIn<T>(inputs);
        Sum<T>();
        for (var output = 0; output < _rows.Length; output++)
        {
            _fft.EndInverse<T>(_rows[output].Span, outputs[output]);
        }
    }

    private void TakeIn<T>(double[][] inputs)
        where T : struct, ILaneMoves<T>
    {
        _newest = _newest == 0 ? _parts - 1 : _newest - 1;
        for (var input = 0; input < _previous.Length; input++)
        {
            ref var to = ref _spectra.Span[((input * _parts) + _newest) * Strip.RowLength];
            _fft.Forward<T>(_previous[input], inputs[input], ref to, _inputStride);
            (_previous[input], inputs[input]) = (inputs[input], _previous[input]);
        }
    }

    // Sums go on into the inverse transform while they are still in the innermost cache.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Sum<T>()
        where T : struct, ILaneMoves<T>
    {
        ref var sums = ref _sums.First;
        for (var group = 0; group < _fft.Rows / Strip.Width; group++)
        {
            for (var output = 0; output < _rows.Length; output++)
            {
                ref var x = ref Unsafe.Add(ref _spectra.First, (nint)group * Strip.Width * _inputStride);
                ref var h = ref Unsafe.Add(ref _filters.First, (nint)group * Strip.Width * _filters.Stride);
                for (nint row = 0; row < Strip.Width; row++)
                {
                    SpectralProduct.Row<T>(ref x, ref h, _paths[output], _parts, _newest, ref Unsafe.Add(ref sums, row * Strip.RowLength));
                    x = ref Unsafe.Add(ref x, _inputStride);
                    h = ref Unsafe.Add(ref h, _filters.Stride);
                }

                _fft.BeginInverse<T>(ref sums, group, _rows[output].Span);
            }
        }
    }
}
