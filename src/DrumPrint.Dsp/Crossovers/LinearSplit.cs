using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Crossovers;

/// <summary>Bands whose phase stays as it is; together they are the signal itself, later.</summary>
/// <remarks>
/// A symmetric filter gives what lies below each crossover, with the level of <see cref="CrossoverDesign.LevelBelow"/>. A band is the difference of two of
/// them, the highest what is left of the signal: S. P. Lipshitz and J. Vanderkooy, "A Family of Linear-Phase Crossover Networks of High
/// Slope Derived by Time Delay", J. Audio Eng. Soc. 31(1/2), 1983 (from memory).
/// </remarks>
internal sealed class LinearSplit : IBandSplit
{
    private readonly PartitionedConvolver _convolver;
    private readonly WaitingLine _wait;
    private readonly double[][] _in;
    private readonly double[][] _whole;
    private readonly double[][] _below;
    private int _filled;

    /// <param name="designs">What lies below each crossover, the lowest first.</param>
    /// <param name="channels">1 or 2.</param>
    public LinearSplit(IReadOnlyList<LinearDesign> designs, int channels)
    {
        var centre = designs.Max(d => d.Centre);
        double[][] filters = [.. designs.Select(d => d.Reaching(centre))];
        ConvolutionPath[] paths = [.. from filter in Enumerable.Range(0, filters.Length) from channel in Enumerable.Range(0, channels) select new ConvolutionPath(channel, filter, (filter * channels) + channel)];

        // By the length alone, so that a channel by itself gives the same bits.
        _convolver = new PartitionedConvolver(filters, paths, ConvolutionBlock.For(filters[0].Length, 2, 1));
        _wait = new WaitingLine(channels, centre);
        (_in, _whole, _below) = (Buffers(channels), Buffers(channels), Buffers(channels * filters.Length));
        LatencyFrames = _convolver.Block + centre;
        TailFrames = centre;
        PreRingMs = designs.Max(d => d.RingMs);
    }

    public int LatencyFrames { get; }

    public long TailFrames { get; }

    public double PreRingMs { get; }

    public void Split(AudioBlock input, double[][][] bands)
    {
        for (var frame = 0; frame < input.Frames;)
        {
            var part = input.Slice(frame, Math.Min(input.Frames - frame, _convolver.Block - _filled));
            for (var channel = 0; channel < _in.Length; channel++)
            {
                part[channel].CopyTo(_in[channel].AsSpan(_filled));
                Part(channel, bands, frame, part.Frames);
            }

            frame += part.Frames;
            _filled += part.Frames;
            if (_filled == _convolver.Block)
            {
                Turn();
            }
        }
    }

    private void Part(int channel, double[][][] bands, int frame, int frames)
    {
        var last = bands.Length - 1;
        for (var band = 0; band <= last; band++)
        {
            var to = bands[band][channel].AsSpan(frame, frames);
            (band == last ? _whole[channel] : Below(band, channel)).AsSpan(_filled, frames).CopyTo(to);
            if (band > 0)
            {
                var lower = Below(band - 1, channel).AsSpan(_filled, frames);
                for (var n = 0; n < to.Length; n++)
                {
                    to[n] -= lower[n];
                }
            }
        }
    }

    private void Turn()
    {
        _filled = 0;
        for (var channel = 0; channel < _in.Length; channel++)
        {
            _in[channel].CopyTo(_whole[channel], 0);
        }

        _wait.Process(_whole);
        _convolver.Process(_in, _below);
    }

    private double[] Below(int band, int channel) => _below[(band * _in.Length) + channel];

    private double[][] Buffers(int count) => [.. Enumerable.Range(0, count).Select(_ => new double[_convolver.Block])];
}
