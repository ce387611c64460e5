using DrumPrint.Dsp;

namespace DrumPrint.Rendering;

/// <summary>Sums feeds, in the order given.</summary>
internal sealed class MixNode(IReadOnlyList<Feeding> feeds) : Node
{
    // Few enough that a piece of the sum stays in the nearest cache while feed after feed is added.
    private const int PieceFrames = 1024;

    public override IEnumerable<Node> Inputs => feeds.Select(f => f.Source);

    public override long MemoryFrames => feeds.Select(f => f.DelayFrames).DefaultIfEmpty().Max();

    public override void Prepare(int blockFrames)
    {
        base.Prepare(blockFrames);
        foreach (var feed in feeds)
        {
            feed.Prepare(blockFrames);
        }
    }

    public override void Process(long block) => Sum(feeds, block, (block * BlockFrames) - Latency, Output(block));

    /// <summary>Sums one block of several feeds.</summary>
    /// <param name="feeds">What is summed.</param>
    /// <param name="block">Number of the block.</param>
    /// <param name="songFrame">Song time of its first frame.</param>
    /// <param name="sum">Where the sum goes; what was there is forgotten.</param>
    public static void Sum(IReadOnlyList<Feeding> feeds, long block, long songFrame, AudioBlock sum)
    {
        Span<bool> begun = stackalloc bool[sum.Channels];
        for (var start = 0; start < sum.Frames; start += PieceFrames)
        {
            var piece = sum.Slice(start, Math.Min(PieceFrames, sum.Frames - start));
            begun.Clear();
            for (var i = 0; i < feeds.Count; i++)
            {
                feeds[i].AddInto(block, start, songFrame, piece, begun);
            }

            for (var channel = 0; channel < piece.Channels; channel++)
            {
                if (!begun[channel])
                {
                    piece[channel].Clear();
                }
            }
        }

        for (var i = 0; i < feeds.Count; i++)
        {
            feeds[i].Take(block);
        }
    }
}
