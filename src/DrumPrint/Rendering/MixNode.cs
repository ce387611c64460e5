using DrumPrint.Dsp;

namespace DrumPrint.Rendering;

/// <summary>Sums feeds, in the order given.</summary>
internal sealed class MixNode(IReadOnlyList<Feeding> feeds) : Node
{
    public override IEnumerable<Node> Inputs => feeds.Select(f => f.Source);

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
        for (var i = 0; i < feeds.Count; i++)
        {
            feeds[i].AddInto(block, songFrame, sum, begun);
        }

        for (var channel = 0; channel < sum.Channels; channel++)
        {
            if (!begun[channel])
            {
                sum[channel].Clear();
            }
        }
    }
}
