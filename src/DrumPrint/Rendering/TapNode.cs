using DrumPrint.Dsp;

namespace DrumPrint.Rendering;

/// <summary>Shows the blocks of another node to whoever measures them.</summary>
internal sealed class TapNode(Node source, Action<AudioBlock> see) : Node
{
    public override IEnumerable<Node> Inputs => [source];

    public override void Process(long block) => see(source.Output(block));
}
