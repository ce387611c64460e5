using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Planning;
using DrumPrint.Rendering;

namespace DrumPrint.Live;

/// <summary>The nodes of a graph before they run.</summary>
internal sealed class LiveGraphParts
{
    private readonly GraphBuilder _builder;
    private readonly Dictionary<Node, string> _keys = [];

    private LiveGraphParts(GraphBuilder builder, int blockFrames) => (_builder, BlockFrames) = (builder, blockFrames);

    public int BlockFrames { get; }

    public required Node Out { get; init; }

    public required MonitorNode Monitor { get; init; }

    public required Dictionary<int, Node> Prints { get; init; }

    public List<string> Forgetting { get; } = [];

    /// <summary>Tracks and buses that run, by the key of their sound.</summary>
    public Dictionary<string, LiveStep> Named { get; private set; } = [];

    public IReadOnlyList<Node> Nodes => _builder.Nodes;

    public IReadOnlyList<PlannedStage> Stages => _builder.Stages;

    public bool IsNamed(Node node) => _keys.ContainsKey(node);

    public long End(Node node) => _builder.End(node);

    public static LiveGraphParts Of(LiveSession session, HeardSettings settings, IReadOnlyDictionary<string, LiveStep> running)
    {
        var chain = session.Chain;
        var blockFrames = chain.Song.RateHz / LiveGraph.BlocksPerSecond;
        var builder = new GraphBuilder(chain, session.Inputs, new LiveLength(session).Cap, AudioHashes.None, null) { Opens = session.Recordings.Open, Designs = session.Designs, IsHeardLive = true };
        List<string> names = [.. chain.Tracks.Select(t => t.Name), .. chain.Buses.Select(b => b.Name)];
        foreach (var name in names)
        {
            if (running.GetValueOrDefault(session.KeyOf(name)) is { } step)
            {
                builder.Adopt(name, step.Node, step.End);
            }
        }

        var buses = chain.Prints.Select(p => (Print: p, Bus: builder.Source(p.Bus))).ToList();
        var latency = Whole(buses.Select(b => b.Bus.Latency).DefaultIfEmpty().Max());
        var prints = buses.ToDictionary(b => b.Print.Number, b => (Node)builder.Mix($"print {b.Print.Number:00}", null, [(b.Bus, Unity(b.Print.LevelDb + settings.TrimDb))], latency));
        var monitor = builder.Add(
            new MonitorNode([.. chain.Prints.Select(p => (p.Number, p.IsOptional, prints[p.Number]))], settings.Strips, chain.Song.PanLawDb) { Name = "the prints", Channels = 2, Latency = latency },
            prints.Values.Select(builder.End).DefaultIfEmpty().Max());
        Node heard = monitor;
        if (settings.WithBus)
        {
            var bus = builder.Through("", "drum_bus", monitor, chain.DrumBus);
            heard = builder.Mix("with the drum bus", 2, [(bus, Unity(chain.Output.RoughWithBus?.LevelDb ?? 0))], Whole(bus.Latency));
        }

        if (builder.Problems.Count > 0)
        {
            throw new ChainException(builder.Problems);
        }

        var parts = new LiveGraphParts(builder, blockFrames) { Out = heard, Monitor = monitor, Prints = prints };
        foreach (var name in names.Where(builder.Has))
        {
            parts._keys.TryAdd(builder.Source(name), session.KeyOf(name));
        }

        return parts;

        long Whole(long frames) => (frames + blockFrames - 1) / blockFrames * blockFrames;
    }

    /// <summary>Takes down which steps run its tracks and buses.</summary>
    public LiveGraphParts WithSteps(Dictionary<Node, LiveStep> steps)
    {
        Named = _keys.Where(k => steps.ContainsKey(k.Key)).ToDictionary(k => k.Value, k => steps[k.Key], StringComparer.Ordinal);
        return this;
    }

    private static Feed Unity(double levelDb) => new("", levelDb, null, false, PathDelay.None, [], 0);
}
