using DrumPrint.Dsp;
using DrumPrint.Dsp.Mixing;

namespace DrumPrint.Rendering;

/// <summary>How one node's output is brought into another.</summary>
/// <param name="source">Where it comes from.</param>
/// <param name="delayFrames">Delay asked for plus what lines the paths up.</param>
/// <param name="gains">Gain by output channel and input channel; none where the signal is taken as it is.</param>
/// <param name="rides">Level over time; null when it stays.</param>
internal sealed class Feeding(Node source, long delayFrames, double[][] gains, RideCurve? rides)
{
    private DelayLine? _line;
    private double[] _moving = [];

    public Node Source { get; } = source;

    public long DelayFrames { get; } = delayFrames;

    public void Prepare(int blockFrames)
    {
        _line = new DelayLine(Source.Channels, DelayFrames);
        _moving = rides is null ? [] : new double[blockFrames];
    }

    /// <summary>Copies the next block of the source, lined up.</summary>
    public void CopyInto(long block, AudioBlock output) => _line!.Move(Source.Output(block), output);

    /// <summary>Adds a piece of the next block into a mix.</summary>
    /// <param name="block">Number of the block.</param>
    /// <param name="start">First frame of the piece in the block.</param>
    /// <param name="songFrame">Song time of the block's first frame in the mix.</param>
    /// <param name="mix">What is added to.</param>
    /// <param name="begun">Which channels of the mix hold something already; the others are begun here, and marked.</param>
    public void AddInto(long block, int start, long songFrame, AudioBlock mix, Span<bool> begun)
    {
        var input = Source.Output(block);
        for (var output = 0; output < gains.Length; output++)
        {
            for (var channel = 0; channel < input.Channels; channel++)
            {
                if (gains[output][channel] != 0)
                {
                    Add(input, channel, start, gains[output][channel], songFrame, mix[output], begun[output]);
                    begun[output] = true;
                }
            }
        }
    }

    /// <summary>Takes the next block, once all its pieces have been added.</summary>
    public void Take(long block) => _line!.Take(Source.Output(block));

    private void Add(AudioBlock input, int channel, int start, double gain, long songFrame, Span<double> mix, bool isBegun)
    {
        var isRiding = rides is not null && rides.Fill(songFrame + start, gain, _moving.AsSpan(0, mix.Length));
        for (var frame = 0; frame < mix.Length;)
        {
            var piece = _line!.Delayed(input, channel, start + frame);
            piece = piece[..Math.Min(piece.Length, mix.Length - frame)];
            var target = mix.Slice(frame, piece.Length);
            if (isRiding)
            {
                if (!isBegun)
                {
                    target.Clear();
                }

                Blend.Add(piece, _moving.AsSpan(frame, piece.Length), target);
            }
            else if (isBegun)
            {
                Blend.Add(piece, gain, target);
            }
            else
            {
                Blend.Begin(piece, gain, target);
            }

            frame += piece.Length;
        }
    }
}
