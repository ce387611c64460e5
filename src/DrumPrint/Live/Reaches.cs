using DrumPrint.Rendering;

namespace DrumPrint.Live;

/// <summary>How far back nodes are read again when all that comes after them is made anew.</summary>
internal sealed class Reaches
{
    // So deep in a song that nothing reaches its start.
    private const long Deep = 1L << 40;

    // A setting may be changed to one that remembers longer. What goes beyond begins further up, which takes longer to come in.
    private const double Margin = 1.5;

    private readonly Beginnings _beginnings;

    private readonly long _now;

    private Reaches(Beginnings beginnings, long now) => (_beginnings, _now) = (beginnings, now);

    /// <summary>Finds them.</summary>
    /// <param name="parts">The nodes of a graph.</param>
    /// <param name="nodes">Those that count, each after its inputs; whatever reads one of them is among them.</param>
    /// <param name="rateHz">Sample rate.</param>
    public static Reaches Of(LiveGraphParts parts, IReadOnlyList<Node> nodes, int rateHz)
    {
        var beginnings = new Beginnings(parts.BlockFrames, rateHz);
        foreach (var node in parts.Prints.Values.Append(parts.Out))
        {
            beginnings.Hear(node, Deep + (node.Latency / parts.BlockFrames));
        }

        beginnings.Find(nodes);
        return new Reaches(beginnings, Deep + (parts.Out.Latency / parts.BlockFrames));
    }

    /// <summary>Blocks before the one that comes next, with room for a change.</summary>
    public int BlocksBack(Node node) => (int)(Margin * (_now - _beginnings.NeededFrom(node)));
}
