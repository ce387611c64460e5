namespace DrumPrint.Rendering;

/// <summary>Finds the nodes, each an input of the next, that took the most time together.</summary>
internal static class LongestChain
{
    /// <param name="nodes">Nodes that have run, each after its inputs.</param>
    public static IReadOnlyList<Node> Of(IReadOnlyList<Node> nodes)
    {
        var before = new Dictionary<Node, Node?>();
        var ticks = new Dictionary<Node, long>();
        foreach (var node in nodes)
        {
            var slowest = node.Inputs.OrderByDescending(i => ticks[i]).FirstOrDefault();
            before[node] = slowest;
            ticks[node] = node.BusyTicks + (slowest is null ? 0 : ticks[slowest]);
        }

        var chain = new List<Node>();
        for (var node = nodes.MaxBy(n => ticks[n]); node is not null; node = before[node])
        {
            chain.Insert(0, node);
        }

        return chain;
    }
}
