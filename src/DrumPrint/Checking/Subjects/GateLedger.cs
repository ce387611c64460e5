using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Checking.Takes;
using DrumPrint.Files;
using DrumPrint.Planning;
using DrumPrint.Rendering;
using DrumPrint.Session;

namespace DrumPrint.Checking.Subjects;

/// <summary>Runs the gates of a chain, and nothing after them, and takes down what they do.</summary>
internal static class GateLedger
{
    private const int BlockFrames = 4096;
    private const string BeforeMark = "·before";
    private const string AfterMark = "·after";

    /// <summary>The gates whose tracks can all be read.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="raws">Raw tracks by name.</param>
    /// <param name="reading">What may be read.</param>
    /// <param name="threads">Threads to render with.</param>
    /// <param name="progress">Told the part done.</param>
    /// <param name="cancel">Stops the run.</param>
    public static IReadOnlyList<GateRecord> Of(Chain chain, IReadOnlyDictionary<string, CheckedTake> raws, ReadPolicy reading, int threads, Action<double> progress, CancellationToken cancel)
    {
        var gates = chain.Buses
            .SelectMany(b => b.Stages.Select((s, i) => (Bus: b, Stage: s, Index: i)).Where(s => s.Stage.Definition.Key == "gate").Take(1))
            .Where(g => g.Bus.Stages.Take(g.Index + 1).Concat(BusTree.Above(chain, g.Bus.Name).SelectMany(b => b.Stages)).All(s => s.Settings.Wanted.All(w => w.Value.Found is not null)))
            .Where(g => !BusTree.IsSpread(chain, g.Bus.Name) && Tracks(chain, g.Bus).All(t => raws.GetValueOrDefault(t) is { Figures: { } f, Kind: TakeKind.Raw } && f.RateHz == chain.Song.RateHz))
            .ToList();
        if (gates.Count == 0)
        {
            return [];
        }

        var needed = gates.SelectMany(g => Tracks(chain, g.Bus)).ToHashSet(StringComparer.Ordinal);
        var above = gates.SelectMany(g => BusTree.Above(chain, g.Bus.Name)).Concat(gates.Select(g => g.Stage.Key).OfType<string>().SelectMany(k => BusTree.Above(chain, k))).Distinct().ToList();
        var part = chain with
        {
            Tracks = [.. chain.Tracks.Where(t => needed.Contains(t.Name))],
            Impulses = [],
            Buses = [.. above, .. gates.Select(g => g.Bus with { Name = g.Bus.Name + BeforeMark, Stages = [.. g.Bus.Stages.Take(g.Index)] }), .. gates.Select(g => g.Bus with { Name = g.Bus.Name + AfterMark, Stages = [.. g.Bus.Stages.Take(g.Index + 1)] })],
        };
        var inputs = SessionInputs.Open(part, reading);
        var frames = inputs.Tracks.Values.Max(t => t.Frames);
        using var graph = new GraphBuilder(part, inputs, frames, AudioHashes.None, shelf: null);
        var taps = gates.Select(g =>
        {
            var (before, after) = (graph.Source(g.Bus.Name + BeforeMark), graph.Source(g.Bus.Name + AfterMark));
            return (Before: Tap(graph, before, part.Song.RateHz, frames), After: Tap(graph, after, part.Song.RateHz, frames), After_: after);
        }).ToList();
        Node.Share(graph.Nodes);
        foreach (var node in graph.Nodes)
        {
            node.Prepare(BlockFrames);
        }

        var most = frames + graph.Nodes.Max(n => n.Latency);
        BlockScheduler.Run(graph.Nodes, (most + BlockFrames - 1) / BlockFrames, threads, progress, cancel);
        return [.. gates.Zip(taps, (g, t) =>
        {
            var trace = graph.Traces[g.Bus.Name + AfterMark].Last(x => x.Processor == "gate");
            var skipped = (int)Math.Round((double)trace.Latency / trace.WindowFrames);
            return new GateRecord(g.Bus, g.Stage, t.Before.Read(), t.After.Read(), trace.Until(frames)[Math.Min(skipped, trace.Until(frames).Length)..].ToArray(), [.. Tracks(chain, g.Bus)]);
        })];
    }

    /// <summary>Raw tracks that feed a bus or are listened to in it.</summary>
    public static IEnumerable<string> Tracks(Chain chain, Bus bus)
    {
        var keys = bus.Stages.Select(s => s.Key).OfType<string>().ToList();
        var feeds = BusTree.Above(chain, bus.Name).Concat(keys.SelectMany(k => BusTree.Above(chain, k))).SelectMany(b => b.Feeds.Select(f => f.Source)).Concat(keys);
        return feeds.Where(n => chain.Tracks.Any(t => t.Name == n)).Distinct();
    }

    private static LatePowers Tap(GraphBuilder graph, Node node, int rateHz, long frames)
    {
        var powers = new LatePowers(rateHz, frames, node.Latency);
        graph.Add(new TapNode(node, powers.Add) { Name = $"measure {node.Name}", Channels = 0 }, 0);
        return powers;
    }
}
