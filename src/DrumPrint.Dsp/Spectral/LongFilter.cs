namespace DrumPrint.Dsp.Spectral;

/// <summary>A long filter without feedback for each channel, run in blocks, in place.</summary>
/// <remarks>The block is chosen by the length alone, so that a channel by itself gives the same bits. It is latency.</remarks>
internal sealed class LongFilter
{
    private readonly PartitionedConvolver _convolver;
    private readonly double[][] _in;
    private readonly double[][] _out;
    private int _filled;

    /// <param name="filters">One for each channel, all of one length; the same array may stand for several.</param>
    public LongFilter(double[][] filters)
    {
        double[][] distinct = [.. filters.Distinct()];
        ConvolutionPath[] paths = [.. filters.Select((filter, channel) => new ConvolutionPath(channel, Array.IndexOf(distinct, filter), channel))];
        _convolver = new PartitionedConvolver(distinct, paths, ConvolutionBlock.For(filters[0].Length, 2, 1));
        _in = Buffers(filters.Length);
        _out = Buffers(filters.Length);
    }

    /// <summary>Frames by which the output lags, the filters' own centre left out.</summary>
    public int LatencyFrames => _convolver.Block;

    /// <summary>Filters a stretch of any length, which has as many channels as there are filters.</summary>
    public void Process(AudioBlock block)
    {
        for (var frame = 0; frame < block.Frames;)
        {
            var part = block.Slice(frame, Math.Min(block.Frames - frame, _convolver.Block - _filled));
            for (var channel = 0; channel < _in.Length; channel++)
            {
                part[channel].CopyTo(_in[channel].AsSpan(_filled));
                _out[channel].AsSpan(_filled, part.Frames).CopyTo(part[channel]);
            }

            frame += part.Frames;
            _filled += part.Frames;
            if (_filled == _convolver.Block)
            {
                _filled = 0;
                _convolver.Process(_in, _out);
            }
        }
    }

    private double[][] Buffers(int count) => [.. Enumerable.Range(0, count).Select(_ => new double[_convolver.Block])];
}
