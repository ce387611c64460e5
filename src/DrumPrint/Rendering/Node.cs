using DrumPrint.Dsp;

namespace DrumPrint.Rendering;

/// <summary>One step of a render: makes its output block by block from the blocks of its inputs.</summary>
internal abstract class Node
{
    /// <summary>Blocks of output that may wait to be read, so that a producer may run ahead of its consumers.</summary>
    public const int RingBlocks = 4;

    private double[][][] _ring = [];

    /// <summary>Name for profiles and messages.</summary>
    public required string Name { get; init; }

    /// <summary>Channels of the output.</summary>
    public required int Channels { get; init; }

    /// <summary>Frames by which the output lags song time.</summary>
    public long Latency { get; init; }

    /// <summary>Blocks of output that are kept: those of the ring, or more where the past is read again.</summary>
    public int KeptBlocks { get; set; } = RingBlocks;

    /// <summary>Frames before a stretch from which the node must run to give that stretch as if it had run from the start, to about
    /// −100 dB; the bound is its processor's own.</summary>
    public virtual long MemoryFrames => 0;

    /// <summary>Frames of the steps in which the node works, counted from where it begins: it must begin a whole number of them into the
    /// song.</summary>
    public virtual int StepFrames => 1;

    /// <summary>Whether what lies further back than <see cref="MemoryFrames"/> changes no bit of the output.</summary>
    public virtual bool ForgetsWholly => true;

    /// <summary>The first block it makes.</summary>
    public long FirstBlock { get; set; }

    /// <summary>The first block whose output is read; what is made before only brings the node there.</summary>
    public long ReadFrom { get; set; }

    /// <summary>Time spent in <see cref="Process"/>, in timestamp ticks; for profiles only.</summary>
    public long BusyTicks { get; set; }

    /// <summary>Nodes whose blocks this one reads.</summary>
    public abstract IEnumerable<Node> Inputs { get; }

    /// <summary>The input whose blocks this node turns into its own, and could change where they lie; null when it cannot.</summary>
    public virtual Node? MayChange => null;

    /// <summary>The input in whose memory this node works; null when it has its own.</summary>
    public Node? Host { get; private set; }

    /// <summary>Lets nodes work in the memory of an input that no other node reads.</summary>
    /// <param name="nodes">All nodes.</param>
    public static void Share(IReadOnlyList<Node> nodes)
    {
        var readers = nodes.SelectMany(n => n.Inputs).CountBy(n => n).ToDictionary();
        foreach (var node in nodes)
        {
            node.Host = node.MayChange is { } input && readers[input] == 1 ? input : null;
        }
    }

    /// <summary>Gets ready to run. Called for each node after its inputs.</summary>
    public virtual void Prepare(int blockFrames)
    {
        BlockFrames = blockFrames;
        _ring = Host?._ring ?? [.. Enumerable.Range(0, KeptBlocks).Select(_ => new double[Channels][])];
    }

    protected int BlockFrames { get; private set; }

    /// <summary>The output for one block, from when it is made until every node that reads it has done so.</summary>
    public AudioBlock Output(long block) => new(_ring[block % _ring.Length], 0, BlockFrames);

    /// <summary>Gets memory for a block that is to be made; a node that works in another's memory has it already.</summary>
    public void Claim(long block, BlockMemory memory, int worker)
    {
        if (Host is null)
        {
            foreach (ref var channel in _ring[block % _ring.Length].AsSpan())
            {
                channel = memory.Lend(worker, BlockFrames);
            }
        }
    }

    /// <summary>Gets memory for a block once, and keeps it for the blocks that come in its place.</summary>
    public void ClaimForGood(long block, Func<double[]> lend)
    {
        foreach (ref var channel in _ring[block % _ring.Length].AsSpan())
        {
            channel ??= lend();
        }
    }

    /// <summary>Gives up all memory.</summary>
    public void ReleaseAll(Action<double[]> takeBack)
    {
        foreach (var block in _ring)
        {
            foreach (ref var channel in block.AsSpan())
            {
                if (channel is not null)
                {
                    takeBack(channel);
                    channel = null!;
                }
            }
        }
    }

    /// <summary>Goes to a block before the first is made; only what reads files or a song's beats has to.</summary>
    public virtual void StartAt(long block)
    {
    }

    /// <summary>Gives up the memory of a block that nobody reads any more.</summary>
    public void Release(long block, BlockMemory memory, int worker)
    {
        if (Host is null)
        {
            foreach (var channel in _ring[block % _ring.Length])
            {
                memory.TakeBack(worker, channel);
            }
        }
    }

    /// <summary>Makes one block. Called for one after another from where it begins, never twice at once.</summary>
    public abstract void Process(long block);
}
