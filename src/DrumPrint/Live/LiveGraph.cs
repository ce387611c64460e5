using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Planning;
using DrumPrint.Rendering;

namespace DrumPrint.Live;

/// <summary>A chain that runs from any block of the song on.</summary>
/// <remarks>
/// It is made of the same nodes as a print. Each node begins as long before the place as it and those after it remember, so a block
/// is that of the print to about −100 dB; from the start of the song it is the print's. A graph may take running nodes over from an
/// earlier one: those whose sound is the same. They keep the last seconds of their output, so that what is new can begin in the past.
/// </remarks>
internal sealed class LiveGraph
{
    /// <summary>A block is a hundredth of a second.</summary>
    public const int BlocksPerSecond = 100;

    // What tracks and buses keep of the past at the most, and how far another thread may go on meanwhile.
    private const int MostKeptBlocks = 8 * BlocksPerSecond;
    private const int SpareBlocks = 50;

    // How far a step may run ahead of those that read it: two threads then seldom wait for each other.
    private const int AheadBlocks = 2 * Node.RingBlocks;

    private readonly LiveStep[] _all;
    private readonly LiveStep[] _own;
    private readonly LiveStep[] _borrowed;
    private readonly Dictionary<string, LiveStep> _named;
    private readonly BlockPool _pool;
    private readonly Node _out;
    private readonly MonitorNode _monitor;
    private readonly Dictionary<int, Node> _prints;
    private readonly long _shift;

    private LiveGraph(LiveGraphParts parts, LiveStep[] all, LiveStep[] own, LiveStep[] borrowed, BlockPool pool, long position)
    {
        (_all, _own, _borrowed, _pool, Position) = (all, own, borrowed, pool, position);
        (_named, _out, _monitor, _prints, BlockFrames) = (parts.Named, parts.Out, parts.Monitor, parts.Prints, parts.BlockFrames);
        _shift = _out.Latency / BlockFrames;
        Forgetting = parts.Forgetting;
        Stages = [.. parts.Stages.Where(s => own.Any(o => o.Node == s.Node))];
    }

    public int BlockFrames { get; }

    /// <summary>The next block of the song that <see cref="Advance"/> gives.</summary>
    public long Position { get; private set; }

    /// <summary>Processors that remember longer than they were given, in words.</summary>
    public IReadOnlyList<string> Forgetting { get; }

    /// <summary>The processors that were made anew.</summary>
    public IReadOnlyList<PlannedStage> Stages { get; }

    /// <summary>Told of each block once every node has made it; their outputs can then be read.</summary>
    public Action<long> Made { get; set; } = static _ => { };

    /// <summary>How many nodes were made anew.</summary>
    public int NewNodes => _own.Length;

    /// <summary>Blocks by which the <see cref="Peaks"/> lag the song.</summary>
    public long PeaksLate => _monitor.Latency / BlockFrames;

    /// <summary>Peaks of the prints in the last block, in the order of the chain.</summary>
    public ReadOnlySpan<float> Peaks => _monitor.Peaks;

    /// <summary>Makes a graph that begins at a block.</summary>
    /// <param name="session">The chain and its files.</param>
    /// <param name="settings">What is heard of it.</param>
    /// <param name="earlier">The graph whose running nodes it may take over; null for none.</param>
    /// <param name="position">The block.</param>
    /// <param name="pool">Memory.</param>
    /// <exception cref="ChainException">Settings that are each in range do not go together.</exception>
    public static LiveGraph Build(LiveSession session, HeardSettings settings, LiveGraph? earlier, long position, BlockPool pool)
    {
        // What would be taken over may not reach back far enough. Then it is made anew too, and with it what it needs.
        var running = new Dictionary<string, LiveStep>(earlier?._named ?? [], StringComparer.Ordinal);
        while (true)
        {
            var tooNew = new HashSet<LiveStep>();
            if (TryBuild(session, settings, earlier, running, position, pool, tooNew) is { } graph)
            {
                return graph;
            }

            foreach (var (key, _) in running.Where(r => tooNew.Contains(r.Value)).ToList())
            {
                running.Remove(key);
            }
        }
    }

    /// <summary>Runs the new nodes up to a block, as far as those that were taken over have come. Another thread may run these meanwhile.</summary>
    /// <param name="position">The block.</param>
    /// <param name="way">How this gives way to what plays meanwhile; null when nothing plays that must not wait.</param>
    /// <returns>Whether they came there; not when it was given up.</returns>
    public bool PreRoll(long position, GivesWay? way) =>
        LiveCrew.Run(_own, _borrowed.Length == 0 ? position + _shift : Math.Min(position + _shift, _borrowed.Min(b => b.Next)), _pool, way);

    /// <summary>Makes everything up to and with a block, which is then the one that can be read.</summary>
    public void Advance(long position)
    {
        for (var block = First(_all); block <= position + _shift; block++)
        {
            Run(_all, block);
            Made(block);
        }

        Position = position + 1;
    }

    /// <summary>Says which block comes next; none of its own has been given yet.</summary>
    public void MoveTo(long position) => Position = position;

    /// <summary>What is heard in the block made last.</summary>
    public AudioBlock Heard => _out.Output(Position - 1 + _shift);

    /// <summary>The sum of the prints in the block made last, before the drum bus.</summary>
    public AudioBlock BeforeBus => _monitor.Output(Position - 1 + _shift - ((_out.Latency - _monitor.Latency) / BlockFrames));

    /// <summary>A print in the block made last, without fader.</summary>
    public AudioBlock Print(int number) => _prints[number].Output(Position - 1 + _shift - ((_out.Latency - _prints[number].Latency) / BlockFrames));

    /// <summary>Gives back the memory of nodes that no other graph runs.</summary>
    public void Drop(params IEnumerable<LiveGraph> others)
    {
        foreach (var step in _all.Except(others.SelectMany(o => o._all)))
        {
            step.Node.ReleaseAll(_pool.TakeBack);
        }
    }

    private void Run(LiveStep[] steps, long block)
    {
        foreach (var step in steps)
        {
            if (step.Next == block)
            {
                step.Make(_pool);
            }
        }
    }

    private static long First(LiveStep[] steps) => steps.Min(s => s.Next);

    // Null when what would be taken over does not reach back far enough.
    private static LiveGraph? TryBuild(
        LiveSession session, HeardSettings settings, LiveGraph? earlier, Dictionary<string, LiveStep> running, long position, BlockPool pool, HashSet<LiveStep> tooNew)
    {
        var known = earlier?._all.ToDictionary(s => s.Node) ?? [];
        var parts = LiveGraphParts.Of(session, settings, running);
        var reached = new HashSet<Node>();
        Reach(parts.Out, reached);
        foreach (var print in parts.Prints.Values)
        {
            Reach(print, reached);
        }

        var own = parts.Nodes.Where(reached.Contains).Select(n => new LiveStep(n, parts.End(n))).ToArray();
        LiveStep[] all = [.. earlier?._all.Where(s => reached.Contains(s.Node)) ?? [], .. own];
        var steps = all.ToDictionary(s => s.Node);
        var beginnings = new Beginnings(parts.BlockFrames, session.Chain.Song.RateHz);
        foreach (var node in parts.Prints.Values.Append(parts.Out))
        {
            beginnings.Hear(node, position + (node.Latency / parts.BlockFrames));
        }

        beginnings.Find([.. own.Select(o => o.Node)]);
        foreach (var step in own)
        {
            (step.Next, step.Good) = (beginnings.First(step.Node), beginnings.GoodFrom(step.Node));
        }

        parts.Forgetting.AddRange(beginnings.Forgetting);
        var borrowed = own.SelectMany(o => o.Node.Inputs).Where(known.ContainsKey).Select(n => known[n]).ToHashSet();
        tooNew.UnionWith(borrowed.Where(b => b.Good > beginnings.NeededFrom(b.Node) || b.Next - b.Node.KeptBlocks + SpareBlocks > beginnings.NeededFrom(b.Node)));
        if (tooNew.Count > 0)
        {
            return null;
        }

        var reaches = settings.KeepsPast ? Reaches.Of(parts, [.. own.Select(o => o.Node)], session.Chain.Song.RateHz) : null;
        foreach (var step in own)
        {
            step.Node.KeptBlocks = reaches is not null && parts.IsNamed(step.Node) ? Math.Min(MostKeptBlocks, reaches.BlocksBack(step.Node) + (2 * SpareBlocks)) : AheadBlocks;
            if (step.Node == parts.Monitor)
            {
                step.Node.KeptBlocks += (int)((parts.Out.Latency - parts.Monitor.Latency) / parts.BlockFrames);
            }

            step.Node.ReadFrom = step.Good;
            step.Node.Prepare(parts.BlockFrames);
            step.Node.StartAt(step.Next);
        }

        return new LiveGraph(parts.WithSteps(steps), all, own, [.. borrowed], pool, position);
    }

    private static void Reach(Node node, HashSet<Node> reached)
    {
        if (reached.Add(node))
        {
            foreach (var input in node.Inputs)
            {
                Reach(input, reached);
            }
        }
    }
}
