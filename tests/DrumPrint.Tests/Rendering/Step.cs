using DrumPrint.Rendering;

namespace DrumPrint.Tests.Rendering;

/// <summary>A node that fills its blocks with their number and its own, and notes where an input shows it anything else.</summary>
internal sealed class Step(IReadOnlyList<Node> inputs) : Node
{
    public override IEnumerable<Node> Inputs => inputs;

    public override Node? MayChange => Changes;

    public Node? Changes { get; init; }

    /// <summary>What tells it from the others, under 1024.</summary>
    public int Number { get; set; }

    /// <summary>Blocks in which an input held something else than its own number of the block.</summary>
    public List<long> Wrong { get; } = [];

    /// <summary>Number of blocks it has made.</summary>
    public long Made { get; private set; }

    public override void Process(long block)
    {
        Made++;
        foreach (var input in inputs)
        {
            if (input.Output(block)[0][0] != Mark(input, block))
            {
                Wrong.Add(block);
            }
        }

        Output(block)[0].Fill(Mark(this, block));
    }

    private static double Mark(Node node, long block) => block + (((Step)node).Number / 1024.0);
}
