using DrumPrint.Rendering;

namespace DrumPrint.Tests.Rendering;

/// <summary>A node that notes which block each input showed it: 1000 × the number of inputs so far, plus the block.</summary>
internal sealed class Step(IReadOnlyList<Node> inputs) : Node
{
    public override IEnumerable<Node> Inputs => inputs;

    public override Node? MayChange => Changes;

    public Node? Changes { get; init; }

    /// <summary>Blocks in which an input held something else than its own number of the block.</summary>
    public List<long> Wrong { get; } = [];

    public override void Process(long block)
    {
        foreach (var input in inputs)
        {
            if (input.Output(block)[0][0] != block + Depth(input))
            {
                Wrong.Add(block);
            }
        }

        Output(block)[0].Fill(block + Depth(this));
    }

    private static double Depth(Node node) => node.Inputs.Any() ? node.Inputs.Max(Depth) + 0.25 : 0;
}
