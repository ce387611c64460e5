using System.Runtime.InteropServices;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>
/// A matrix of long filters, run by overlap-save on blocks of one fixed length: every filter is cut into parts of that
/// length, and the spectra of past inputs meet the spectra of the parts.
/// </summary>
/// <remarks>Source: Stockham, "High-speed convolution and correlation" (1966), for the block transform; Kulp, "Digital equalization
/// using Fourier transform techniques", AES Convention 85 (1988), for equal parts (both from memory). Input spectra are shared by all paths.</remarks>
public sealed class PartitionedConvolver
{
    // Bins worked on at a time, so that the sums stay in the innermost cache.
    private const int LongestTile = 512;

    // Two cache lines between tiles: without them the same bin of every part would fall on the same few lines of the cache.
    private const int Gap = 16;

    private readonly OddFrequencyFft _fft;
    private readonly int _parts;
    private readonly int _tile;
    private readonly int _lanes;
    private readonly double[][] _filters;
    private readonly double[][] _spectra;
    private readonly double[][] _previous;
    private readonly double[][] _sumsRe;
    private readonly double[][] _sumsIm;
    private readonly Term[][] _terms;
    private int _newest;

    /// <param name="filters">Impulse responses of one length.</param>
    /// <param name="paths">Which input goes through which filter to which output.</param>
    /// <param name="block">Frames per block: a power of two, at least 64.</param>
    public PartitionedConvolver(double[][] filters, ConvolutionPath[] paths, int block)
        : this(filters, paths, block, LaneWidth.Best)
    {
    }

    internal PartitionedConvolver(double[][] filters, ConvolutionPath[] paths, int block, int lanes)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(block, 64);
        Block = block;
        _tile = Math.Min(block, LongestTile);
        _lanes = lanes;
        _fft = new OddFrequencyFft(block, lanes);
        _parts = (filters[0].Length + block - 1) / block;
        var outputs = paths.Max(p => p.Output) + 1;
        _sumsRe = Buffers(outputs, block);
        _sumsIm = Buffers(outputs, block);
        _filters = Array.ConvertAll(filters, Spectra);
        var inputs = paths.Max(p => p.Input) + 1;
        _spectra = Buffers(inputs, Place(block / _tile, 0));
        _previous = Buffers(inputs, block);
        _terms = [.. Enumerable.Range(0, outputs).Select(output => Terms(paths, output))];
    }

    public int Block { get; }

    /// <summary>Takes the next block of every input and gives the same block of every output.</summary>
    public void Process(double[][] inputs, double[][] outputs)
    {
        _newest = _newest == 0 ? _parts - 1 : _newest - 1;
        for (var input = 0; input < _spectra.Length; input++)
        {
            _fft.Forward(_previous[input], inputs[input], _sumsRe[0], _sumsIm[0]);
            Spread(_sumsRe[0], _sumsIm[0], _spectra[input], _newest);
            inputs[input].AsSpan(0, Block).CopyTo(_previous[input]);
        }

        Sum();
        for (var output = 0; output < _terms.Length; output++)
        {
            _fft.InverseSecondHalf(_sumsRe[output], _sumsIm[output], outputs[output]);
        }
    }

    private static double[][] Buffers(int count, int length) => [.. Enumerable.Range(0, count).Select(_ => new double[length])];

    private Term[] Terms(ConvolutionPath[] paths, int output) =>
    [
        .. from path in paths
           where path.Output == output
           from part in Enumerable.Range(0, _parts)
           select new Term(path.Input, path.Filter, part),
    ];

    // Spectra of the parts of a filter, first part first, divided by what the inverse transform leaves in.
    private double[] Spectra(double[] filter)
    {
        var spectra = new double[Place(Block / _tile, 0)];
        var first = new double[Block];
        var second = new double[Block];
        for (var part = 0; part < _parts; part++)
        {
            var taps = filter.AsSpan(part * Block, Math.Min(Block, filter.Length - (part * Block)));
            Array.Clear(first);
            for (var n = 0; n < taps.Length; n++)
            {
                first[n] = taps[n] / Block;
            }

            _fft.Forward(first, second, _sumsRe[0], _sumsIm[0]);
            Spread(_sumsRe[0], _sumsIm[0], spectra, part);
        }

        return spectra;
    }

    private void Sum()
    {
        switch (_lanes)
        {
            case 8:
                Sum<Lane8>();
                break;
            case 4:
                Sum<Lane4>();
                break;
            case 2:
                Sum<Lane2>();
                break;
            default:
                Sum<Lane1>();
                break;
        }
    }

    // Tile by tile for all outputs, so that a tile of the input spectra is still at hand for the next output.
    private void Sum<T>()
        where T : struct, ILane<T>
    {
        for (var tile = 0; tile < Block / _tile; tile++)
        {
            for (var output = 0; output < _terms.Length; output++)
            {
                Sum<T>(_sumsRe[output].AsSpan(tile * _tile, _tile), _sumsIm[output].AsSpan(tile * _tile, _tile), _terms[output], tile);
            }
        }
    }

    private void Sum<T>(Span<double> sumRe, Span<double> sumIm, ReadOnlySpan<Term> terms, int tile)
        where T : struct, ILane<T>
    {
        sumRe.Clear();
        sumIm.Clear();
        ref var re = ref MemoryMarshal.GetReference(sumRe);
        ref var im = ref MemoryMarshal.GetReference(sumIm);
        var t = 0;
        for (; t + 4 <= terms.Length; t += 4)
        {
            var (a, b, c, d) = (terms[t], terms[t + 1], terms[t + 2], terms[t + 3]);
            SpectralProduct.Add<T>(
                ref re, ref im, ref X(a, tile), ref H(a, tile), ref X(b, tile), ref H(b, tile), ref X(c, tile), ref H(c, tile), ref X(d, tile), ref H(d, tile), _tile);
        }

        for (; t < terms.Length; t++)
        {
            SpectralProduct.Add<T>(ref re, ref im, ref X(terms[t], tile), ref H(terms[t], tile), _tile);
        }
    }

    // The input's spectrum as many blocks back as the part lies into the filter.
    private ref double X(Term term, int tile)
    {
        var slot = _newest + term.Part;
        return ref _spectra[term.Input][Place(tile, slot >= _parts ? slot - _parts : slot)];
    }

    private ref double H(Term term, int tile) => ref _filters[term.Filter][Place(tile, term.Part)];

    // A tile of all parts lies together: memory is read in one straight run.
    private int Place(int tile, int part) => ((tile * _parts) + part) * ((2 * _tile) + Gap);

    private void Spread(ReadOnlySpan<double> re, ReadOnlySpan<double> im, double[] spectra, int part)
    {
        for (var tile = 0; tile < Block / _tile; tile++)
        {
            var to = spectra.AsSpan(Place(tile, part), 2 * _tile);
            re.Slice(tile * _tile, _tile).CopyTo(to);
            im.Slice(tile * _tile, _tile).CopyTo(to[_tile..]);
        }
    }

    private readonly record struct Term(int Input, int Filter, int Part);
}
