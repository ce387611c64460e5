using DrumPrint.Audio;

namespace DrumPrint.Rendering;

/// <summary>Reads a finished print, silence after its end.</summary>
internal sealed class PrintFileNode(AudioReader reader) : Node
{
    public override IEnumerable<Node> Inputs => [];

    public override void Process(long block) => reader.Read(Output(block));
}
