using DrumPrint.Session;

namespace DrumPrint.Rendering;

/// <summary>Reads a file of many channels once for all tracks that use one of them; silence after its end.</summary>
/// <param name="source">The open recording at the session's rate, its channels those that are used.</param>
internal sealed class RecordingNode(ITrackSource source) : Node
{
    public override IEnumerable<Node> Inputs => [];

    public override void StartAt(long block) => source.Start(block * BlockFrames);

    public override void Process(long block) => source.Read(Output(block));
}
