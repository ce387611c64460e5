using DrumPrint.Dsp;
using DrumPrint.Dsp.Mixing;

namespace DrumPrint.Rendering;

/// <summary>How one node's output is brought into a mix.</summary>
/// <param name="source">Where it comes from.</param>
/// <param name="delayFrames">Delay asked for plus what lines the paths up.</param>
/// <param name="gains">Gain by output channel and input channel.</param>
/// <param name="rides">Level over time; null when it stays.</param>
internal sealed class Feeding(Node source, long delayFrames, double[][] gains, RideCurve? rides)
{
    private DelayLine? _line;
    private double[] _moving = [];

    public Node Source { get; } = source;

    public long DelayFrames { get; } = delayFrames;

    public void Prepare(int blockFrames)
    {
        _line = new DelayLine(Source.Channels, DelayFrames, blockFrames);
        _moving = rides is null ? [] : new double[blockFrames];
    }

    /// <summary>The next block of the source, lined up.</summary>
    public AudioBlock Next(long block) => _line!.Next(Source.Output(block));

    /// <summary>Adds the next block into a mix.</summary>
    /// <param name="block">Number of the block.</param>
    /// <param name="songFrame">Song time of the block's first frame in the mix.</param>
    /// <param name="mix">What is added to.</param>
    public void AddInto(long block, long songFrame, AudioBlock mix)
    {
        var input = Next(block);
        for (var output = 0; output < gains.Length; output++)
        {
            for (var channel = 0; channel < input.Channels; channel++)
            {
                var gain = gains[output][channel];
                if (gain == 0)
                {
                    continue;
                }

                if (rides is not null && rides.Fill(songFrame, gain, _moving.AsSpan(0, mix.Frames)))
                {
                    Blend.Add(input[channel], _moving.AsSpan(0, mix.Frames), mix[output]);
                }
                else
                {
                    Blend.Add(input[channel], gain, mix[output]);
                }
            }
        }
    }
}
