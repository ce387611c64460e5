using DrumPrint.Dsp.Mixing;

namespace DrumPrint.Rendering;

/// <summary>Proves that the playing prints, as written, add up to the rough, as written.</summary>
/// <param name="prints">Playing prints at unity, centred mono by the session's pan law.</param>
/// <param name="rough">The rough, as late as the prints.</param>
internal sealed class NullNode(IReadOnlyList<Feeding> prints, Node rough) : Node
{
    public override IEnumerable<Node> Inputs => [.. prints.Select(p => p.Source), rough];

    /// <summary>Largest difference.</summary>
    public double Peak { get; private set; }

    public override void Prepare(int blockFrames)
    {
        base.Prepare(blockFrames);
        foreach (var print in prints)
        {
            print.Prepare(blockFrames);
        }
    }

    public override void Process(long block)
    {
        var sum = Output(block);
        MixNode.Sum(prints, block, 0, sum);
        var target = rough.Output(block);
        for (var channel = 0; channel < sum.Channels; channel++)
        {
            Peak = Blend.LargestDifference(sum[channel], target[channel], Peak);
        }
    }
}
