using System.Numerics;

namespace DrumPrint.Rendering;

/// <summary>Finds for each node of a graph the block at which it must begin, so that a stretch in mid-song is as if all had run from the start
/// of the song.</summary>
/// <remarks>
/// Each node begins as long before what is read of it as it remembers, a whole number of its own steps into the song. It goes from those
/// that are heard back to the tracks. So the places depend on the graph, the stretch and the length of a block, and on nothing else.
/// </remarks>
/// <param name="blockFrames">Frames of a block.</param>
/// <param name="rateHz">Sample rate.</param>
internal sealed class Beginnings(int blockFrames, int rateHz)
{
    /// <summary>Seconds before a stretch from which a processor runs at the longest. One that remembers longer is told of.</summary>
    public const int LongestMemoryS = 20;

    private readonly Dictionary<Node, long> _needed = [];
    private readonly Dictionary<Node, long> _first = [];
    private readonly HashSet<Node> _exact = [];
    private readonly List<string> _forgetting = [];

    /// <summary>Processors that remember longer than they are given, in words.</summary>
    public IReadOnlyList<string> Forgetting => _forgetting;

    /// <summary>Whether every bit is as if all had run from the start of the song, as far as the graph can tell.</summary>
    public bool IsExact => _exact.Count == _first.Count;

    /// <summary>Says which block of a node is the first that is heard.</summary>
    public void Hear(Node node, long block) => _needed[node] = Math.Min(NeededFrom(node), block);

    /// <summary>The first block that is read of a node; no end of them where none is.</summary>
    public long NeededFrom(Node node) => _needed.GetValueOrDefault(node, long.MaxValue);

    /// <summary>The block at which a node begins.</summary>
    public long First(Node node) => _first[node];

    /// <summary>The block from which its output is as if it had always run, to about −100 dB.</summary>
    public long GoodFrom(Node node) => _first[node] == 0 ? 0 : _needed[node];

    /// <summary>Finds them.</summary>
    /// <param name="nodes">Nodes, each after its inputs; an input that is not among them runs already.</param>
    public void Find(IReadOnlyList<Node> nodes)
    {
        for (var n = nodes.Count - 1; n >= 0; n--)
        {
            var node = nodes[n];
            _first[node] = Begin(node);
            foreach (var input in node.Inputs)
            {
                Hear(input, _first[node]);
            }
        }

        foreach (var node in nodes)
        {
            if (_first[node] == 0 || (node.ForgetsWholly && node.MemoryFrames <= Longest && node.Inputs.All(_exact.Contains)))
            {
                _exact.Add(node);
            }
        }
    }

    /// <summary>The fewest blocks that are a whole number of a processor's steps.</summary>
    public static long StepBlocks(int stepFrames, int blockFrames) => stepFrames / (long)BigInteger.GreatestCommonDivisor(stepFrames, blockFrames);

    private long Longest => (long)LongestMemoryS * rateHz;

    private long Begin(Node node)
    {
        var memory = Math.Min(node.MemoryFrames, Longest);
        var first = Math.Max(0, NeededFrom(node) - ((memory + blockFrames - 1) / blockFrames));
        if (node.MemoryFrames > memory && first > 0)
        {
            _forgetting.Add(node.Name);
        }

        return first - (first % StepBlocks(node.StepFrames, blockFrames));
    }
}
