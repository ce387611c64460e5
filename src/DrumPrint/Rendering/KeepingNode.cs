using DrumPrint.Store;

namespace DrumPrint.Rendering;

/// <summary>Keeps the signal of another node for later runs. Gives nothing on.</summary>
internal sealed class KeepingNode(Node source, SignalWriter writer) : Node
{
    public override IEnumerable<Node> Inputs => [source];

    public override void Process(long block) => writer.Write(source.Output(block));
}
