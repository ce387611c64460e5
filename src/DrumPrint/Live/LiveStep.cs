using DrumPrint.Rendering;

namespace DrumPrint.Live;

/// <summary>A node that runs, and how far it is.</summary>
/// <param name="node">The node.</param>
/// <param name="end">Song frame after which it is silent.</param>
internal sealed class LiveStep(Node node, long end)
{
    private long _next;

    public Node Node { get; } = node;

    public long End { get; } = end;

    /// <summary>The next block it makes. Another thread may read what lies before.</summary>
    public long Next
    {
        get => Volatile.Read(ref _next);
        set => Volatile.Write(ref _next, value);
    }

    /// <summary>The block from which its output is that of the print, to about −100 dB.</summary>
    public long Good { get; set; }

    public void Make(BlockPool pool)
    {
        Node.ClaimForGood(Next, pool.Lend);
        Node.Process(Next);
        Next++;
    }
}
