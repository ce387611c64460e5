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

    public override void Process(long block)
    {
        var mix = Output(block);
        for (var channel = 0; channel < mix.Channels; channel++)
        {
            mix[channel].Clear();
        }

        foreach (var feed in feeds)
        {
            feed.AddInto(block, (block * BlockFrames) - Latency, mix);
        }
    }
}
