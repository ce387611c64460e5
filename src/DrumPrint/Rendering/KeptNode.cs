using DrumPrint.Store;

namespace DrumPrint.Rendering;

/// <summary>Gives a signal that an earlier run kept, silence after its end.</summary>
internal sealed class KeptNode(SignalReader reader) : Node
{
    public override IEnumerable<Node> Inputs => [];

    public override void Process(long block) => reader.Read(Output(block));
}
