using DrumPrint.Dsp;

namespace DrumPrint.Rendering;

/// <summary>Runs one processor on one channel of a signal.</summary>
/// <param name="input">The signal.</param>
/// <param name="channel">Which of its channels.</param>
/// <param name="processor">Made for this channel of this render.</param>
internal sealed class SideNode(Node input, int channel, IProcessor processor) : Node
{
    public override IEnumerable<Node> Inputs => [input];

    public override long MemoryFrames => processor.LatencyFrames + processor.MemoryFrames;

    public override int StepFrames => processor.StepFrames;

    public override bool ForgetsWholly => processor.ForgetsWholly;

    public override void Process(long block)
    {
        var output = Output(block);
        input.Output(block)[channel].CopyTo(output[0]);
        processor.Process(output, AudioBlock.None);
    }
}
