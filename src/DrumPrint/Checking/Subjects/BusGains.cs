using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp;
using DrumPrint.Files;
using DrumPrint.Planning;
using DrumPrint.Rendering;
using DrumPrint.Session;

namespace DrumPrint.Checking.Subjects;

/// <summary>By how much the processors of buses make louder or softer what comes into them, over the whole song.</summary>
internal static class BusGains
{
    private const int BlockFrames = 4096;
    private const string BeforeMark = "·before";

    /// <summary>Measures buses.</summary>
    /// <returns>A linear gain for each that can be rendered; where its files cannot be read, or nothing comes in, none.</returns>
    public static IReadOnlyDictionary<string, double> Of(Chain chain, IReadOnlyList<Bus> buses, IReadOnlyDictionary<string, CheckedTake> raws, ReadPolicy reading, int threads, CancellationToken cancel)
    {
        List<Bus> able = [.. buses.Where(b => !BusTree.IsSpread(chain, b.Name) && With(chain, b).All(a => a.Stages.All(s => s.Settings.Wanted.All(w => w.Value.Found is not null))) && Tracks(chain, b).All(t => raws.GetValueOrDefault(t) is { Figures: not null }))];
        if (able.Count == 0)
        {
            return new Dictionary<string, double>();
        }

        var tracks = able.SelectMany(b => Tracks(chain, b)).ToHashSet(StringComparer.Ordinal);
        var part = chain with
        {
            Tracks = [.. chain.Tracks.Where(t => tracks.Contains(t.Name))],
            Impulses = [],
            Buses = [.. able.SelectMany(b => With(chain, b)).Distinct(), .. able.Select(b => b with { Name = b.Name + BeforeMark, Stages = [] })],
        };
        var inputs = SessionInputs.Open(part, reading);
        var frames = inputs.Tracks.Values.Max(t => t.Frames);
        using var graph = new GraphBuilder(part, inputs, frames, AudioHashes.None, shelf: null);
        var powers = able.Select(b => (Before: Tap(graph, graph.Source(b.Name + BeforeMark)), After: Tap(graph, graph.Source(b.Name)))).ToList();
        Node.Share(graph.Nodes);
        foreach (var node in graph.Nodes)
        {
            node.Prepare(BlockFrames);
        }

        var most = frames + graph.Nodes.Max(n => n.Latency);
        BlockScheduler.Run(graph.Nodes, (most + BlockFrames - 1) / BlockFrames, threads, _ => { }, cancel);
        return able.Zip(powers).Where(p => p.Second.Before.Sum > 0).ToDictionary(p => p.First.Name, p => Math.Sqrt(p.Second.After.Sum / p.Second.Before.Sum), StringComparer.Ordinal);
    }

    // A bus, all that feeds it, and what its processors listen to.
    private static List<Bus> With(Chain chain, Bus bus)
    {
        var found = new List<Bus>();
        var open = new Stack<string>([bus.Name]);
        while (open.TryPop(out var name))
        {
            foreach (var next in BusTree.Above(chain, name).Where(b => !found.Contains(b)))
            {
                found.Add(next);
                next.Stages.Select(s => s.Key).OfType<string>().ToList().ForEach(open.Push);
            }
        }

        return found;
    }

    private static IEnumerable<string> Tracks(Chain chain, Bus bus)
    {
        var names = With(chain, bus).SelectMany(b => b.Feeds.Select(f => f.Source).Concat(b.Stages.Select(s => s.Key).OfType<string>())).ToHashSet(StringComparer.Ordinal);
        return chain.Tracks.Select(t => t.Name).Where(names.Contains);
    }

    private static Power Tap(GraphBuilder graph, Node node)
    {
        var power = new Power();
        graph.Add(new TapNode(node, power.Add) { Name = $"measure {node.Name}", Channels = 0 }, 0);
        return power;
    }

    private sealed class Power
    {
        /// <summary>Energy of the mean of all channels' powers.</summary>
        public double Sum { get; private set; }

        public void Add(AudioBlock block)
        {
            for (var c = 0; c < block.Channels; c++)
            {
                foreach (var sample in block[c])
                {
                    Sum += sample * sample / block.Channels;
                }
            }
        }
    }
}
