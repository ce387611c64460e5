using DrumPrint.Rendering;

namespace DrumPrint.Planning;

/// <summary>How the nodes of an excerpt begin in mid-song, each as long before it as it remembers.</summary>
/// <param name="BlockFrames">Frames of a block: a place to begin is a whole number of them into the song, whatever else a run is asked for.</param>
/// <param name="Frame">Song frame at which the first of them begins.</param>
/// <param name="IsExact">Whether every sample is that of the print.</param>
/// <param name="Forgetting">Processors that remember longer than they are given, in words.</param>
internal sealed record LateBegin(int BlockFrames, long Frame, bool IsExact, IReadOnlyList<string> Forgetting)
{
    // Short enough that little is rendered in vain, long enough that the steps of a block outweigh the handing on.
    private const int BlocksPerSecond = 25;

    /// <summary>Finds where the nodes of a graph begin, and tells each of them.</summary>
    /// <param name="builder">The graph.</param>
    /// <param name="from">Song frame from which it is heard.</param>
    /// <param name="rateHz">Sample rate.</param>
    /// <returns>Null where one of them remembers back to the start of the song: then all start with it, which costs little more and is exact.</returns>
    public static LateBegin? Of(GraphBuilder builder, long from, int rateHz)
    {
        var blockFrames = Math.Max(1, rateHz / BlocksPerSecond);
        var beginnings = new Beginnings(blockFrames, rateHz);

        // The proof of the sum reads what the files hold, so it begins with them.
        foreach (var node in builder.Nodes.Where(n => n is WriterNode or NullNode))
        {
            beginnings.Hear(node, (from + node.Latency) / blockFrames);
        }

        beginnings.Find(builder.Nodes);
        var first = builder.Nodes.Min(n => beginnings.First(n));
        if (first == 0)
        {
            return null;
        }

        foreach (var node in builder.Nodes)
        {
            node.FirstBlock = beginnings.First(node);
            node.ReadFrom = beginnings.GoodFrom(node);
        }

        foreach (var stage in builder.Stages)
        {
            foreach (var trace in stage.Traces)
            {
                trace.FirstFrame = stage.Node.FirstBlock * blockFrames;
            }
        }

        return new LateBegin(blockFrames, first * blockFrames, beginnings.IsExact, [.. beginnings.Forgetting.Distinct(StringComparer.Ordinal)]);
    }
}
