using DrumPrint.Dsp;
using DrumPrint.Dsp.Mixing;

namespace DrumPrint.Rendering;

/// <summary>One raw track out of a recording of many channels.</summary>
/// <param name="recording">The recording.</param>
/// <param name="channel">Which of its channels.</param>
/// <param name="gain">Level and polarity of the track.</param>
/// <param name="delayFrames">Delay of the track.</param>
internal sealed class ChannelNode(Node recording, int channel, double gain, long delayFrames) : Node
{
    private readonly double[][] _read = new double[1][];
    private DelayLine? _line;

    public override IEnumerable<Node> Inputs => [recording];

    public override long MemoryFrames => delayFrames;

    public override void Prepare(int blockFrames)
    {
        base.Prepare(blockFrames);
        _line = delayFrames > 0 ? new DelayLine(1, delayFrames) : null;
        _read[0] = _line is null ? [] : new double[blockFrames];
    }

    public override void Process(long block)
    {
        var input = recording.Output(block)[channel];
        var output = Output(block);
        if (_line is null)
        {
            input.CopyTo(output[0]);
        }
        else
        {
            input.CopyTo(_read[0]);
            _line.Move(new AudioBlock(_read, 0, BlockFrames), output);
        }

        if (gain != 1)
        {
            Blend.Copy(output[0], gain, output[0]);
        }
    }
}
