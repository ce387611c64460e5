using DrumPrint.Dsp;

namespace DrumPrint.Rendering;

/// <summary>Runs one processor.</summary>
/// <param name="input">Signal to process, lined up with the key.</param>
/// <param name="key">What the detector listens to; null for the input itself.</param>
/// <param name="processor">Made for this render.</param>
internal sealed class StageNode(Feeding input, Feeding? key, IProcessor processor) : Node
{
    private double[][] _key = [];

    public override IEnumerable<Node> Inputs => key is null ? [input.Source] : [input.Source, key.Source];

    public override Node? MayChange => input.DelayFrames == 0 && input.Source.Channels == Channels ? input.Source : null;

    public IProcessor Processor => processor;

    public override long MemoryFrames => processor.LatencyFrames + processor.MemoryFrames + Math.Max(input.DelayFrames, key?.DelayFrames ?? 0);

    public override int StepFrames => processor.StepFrames;

    public override bool ForgetsWholly => processor.ForgetsWholly;

    public override void Prepare(int blockFrames)
    {
        base.Prepare(blockFrames);
        input.Prepare(blockFrames);
        if (key is not null)
        {
            key.Prepare(blockFrames);
            _key = key.DelayFrames == 0 ? [] : [.. Enumerable.Range(0, key.Source.Channels).Select(_ => new double[blockFrames])];
        }
    }

    public override void Process(long block)
    {
        var output = Output(block);
        if (Host is null)
        {
            input.CopyInto(block, output);
            for (var channel = input.Source.Channels; channel < output.Channels; channel++)
            {
                output[channel].Clear();
            }
        }

        if ((block + 1) * BlockFrames < (ReadFrom * BlockFrames) - processor.LatencyFrames)
        {
            processor.TakeIn(output, Key(block));
        }
        else
        {
            processor.Process(output, Key(block));
        }
    }

    private AudioBlock Key(long block)
    {
        if (key is null)
        {
            return AudioBlock.None;
        }

        if (_key.Length == 0)
        {
            return key.Source.Output(block);
        }

        var delayed = new AudioBlock(_key, 0, BlockFrames);
        key.CopyInto(block, delayed);
        return delayed;
    }
}
