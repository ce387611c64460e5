namespace DrumPrint.Rendering;

/// <summary>Puts two channels that were made apart into one signal again.</summary>
internal sealed class PairNode(Node left, Node right) : Node
{
    public override IEnumerable<Node> Inputs => [left, right];

    public override void Process(long block)
    {
        var output = Output(block);
        left.Output(block)[0].CopyTo(output[0]);
        right.Output(block)[0].CopyTo(output[1]);
    }
}
