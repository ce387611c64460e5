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
    private const int Tile = 512;

    private readonly ConvolutionPath[] _paths;
    private readonly OddFrequencyFft _fft;
    private readonly int _parts;
    private readonly int _lanes;
    private readonly double[][] _filters;
    private readonly double[][] _spectra;
    private readonly double[][] _previous;
    private readonly double[] _sumRe;
    private readonly double[] _sumIm;
    private int _newest;

    /// <param name="filters">Impulse responses of one length.</param>
    /// <param name="paths">Which input goes through which filter to which output.</param>
    /// <param name="block">Frames per block: 1, 3 or 5 times a power of two, at least 64.</param>
    public PartitionedConvolver(double[][] filters, ConvolutionPath[] paths, int block)
        : this(filters, paths, block, LaneWidth.Best)
    {
    }

    internal PartitionedConvolver(double[][] filters, ConvolutionPath[] paths, int block, int lanes)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(block, 64);
        Block = block;
        _paths = paths;
        _lanes = lanes;
        _fft = new OddFrequencyFft(block, lanes);
        _parts = (filters[0].Length + block - 1) / block;
        _filters = Array.ConvertAll(filters, Spectra);
        var inputs = paths.Max(p => p.Input) + 1;
        Outputs = paths.Max(p => p.Output) + 1;
        _spectra = new double[inputs][];
        _previous = new double[inputs][];
        for (var input = 0; input < inputs; input++)
        {
            _spectra[input] = new double[2 * block * _parts];
            _previous[input] = new double[block];
        }

        _sumRe = new double[block];
        _sumIm = new double[block];
    }

    public int Block { get; }

    public int Outputs { get; }

    /// <summary>Takes the next block of every input and gives the same block of every output.</summary>
    public void Process(double[][] inputs, double[][] outputs)
    {
        _newest = _newest == 0 ? _parts - 1 : _newest - 1;
        for (var input = 0; input < _spectra.Length; input++)
        {
            var slot = _spectra[input].AsSpan(2 * Block * _newest, 2 * Block);
            _fft.Forward(_previous[input], inputs[input], slot[..Block], slot[Block..]);
            inputs[input].AsSpan(0, Block).CopyTo(_previous[input]);
        }

        for (var output = 0; output < Outputs; output++)
        {
            Sum(output);
            _fft.InverseSecondHalf(_sumRe, _sumIm, outputs[output]);
        }
    }

    // Spectra of the parts of a filter, first part first, divided by what the inverse transform leaves in.
    private double[] Spectra(double[] filter)
    {
        var spectra = new double[2 * Block * _parts];
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

            var slot = spectra.AsSpan(2 * Block * part, 2 * Block);
            _fft.Forward(first, second, slot[..Block], slot[Block..]);
        }

        return spectra;
    }

    private void Sum(int output)
    {
        Array.Clear(_sumRe);
        Array.Clear(_sumIm);
        for (var start = 0; start < Block; start += Tile)
        {
            foreach (var path in _paths)
            {
                if (path.Output == output)
                {
                    Sum(path, start, Math.Min(Tile, Block - start));
                }
            }
        }
    }

    private void Sum(ConvolutionPath path, int start, int bins)
    {
        for (var part = 0; part < _parts; part++)
        {
            var slot = _newest + part;
            slot = slot >= _parts ? slot - _parts : slot;
            var x = _spectra[path.Input].AsSpan(2 * Block * slot, 2 * Block);
            var h = _filters[path.Filter].AsSpan(2 * Block * part, 2 * Block);
            SpectralProduct.Add(
                _lanes,
                x.Slice(start, bins),
                x.Slice(Block + start, bins),
                h.Slice(start, bins),
                h.Slice(Block + start, bins),
                _sumRe.AsSpan(start, bins),
                _sumIm.AsSpan(start, bins));
        }
    }
}
