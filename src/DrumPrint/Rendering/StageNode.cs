using DrumPrint.Dsp;

namespace DrumPrint.Rendering;

/// <summary>Runs one processor.</summary>
/// <param name="input">Signal to process, lined up with the key.</param>
/// <param name="key">What the detector listens to; null for the input itself.</param>
/// <param name="processor">Made for this render.</param>
internal sealed class StageNode(Feeding input, Feeding? key, IProcessor processor) : Node
{
    public override IEnumerable<Node> Inputs => key is null ? [input.Source] : [input.Source, key.Source];

    public IProcessor Processor => processor;

    public override void Prepare(int blockFrames)
    {
        base.Prepare(blockFrames);
        input.Prepare(blockFrames);
        key?.Prepare(blockFrames);
    }

    public override void Process(long block)
    {
        var output = Output(block);
        var source = input.Next(block);
        for (var channel = 0; channel < source.Channels; channel++)
        {
            source[channel].CopyTo(output[channel]);
        }

        for (var channel = source.Channels; channel < output.Channels; channel++)
        {
            output[channel].Clear();
        }

        processor.Process(output, key is null ? AudioBlock.None : key.Next(block));
    }
}
