using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;
using DrumPrint.Files;
using DrumPrint.Planning;
using DrumPrint.Rendering;
using DrumPrint.Session;

namespace DrumPrint.Measuring;

/// <summary>Runs the layers of a chain, and nothing after them, and takes down under which hits they play.</summary>
public static class LayerLedger
{
    private const int BlockFrames = 4096;
    private const string Mark = "·layer";

    /// <summary>The layers of every bus, in the order of the chain.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="reading">Which files it may name.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops between blocks.</param>
    /// <exception cref="InputException">Files are missing or do not fit.</exception>
    /// <exception cref="ChainException">Settings do not go together.</exception>
    public static IReadOnlyList<LayerRecord> Of(Chain chain, ReadPolicy reading, Action<string, double> progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(chain);
        ArgumentNullException.ThrowIfNull(progress);
        var buses = chain.Buses.Select(b => (Bus: b, Last: b.Stages.ToList().FindLastIndex(IsLayer))).Where(b => b.Last >= 0).ToList();
        if (buses.Count == 0)
        {
            return [];
        }

        var inputs = SessionInputs.Open(chain, reading);
        var frames = inputs.Tracks.Values.Max(t => t.Frames);
        var cut = chain with { Buses = [.. chain.Buses, .. buses.Select(b => b.Bus with { Name = b.Bus.Name + Mark, Stages = [.. b.Bus.Stages.Take(b.Last + 1)] })] };
        using var graph = new GraphBuilder(cut, inputs, frames, AudioHashes.None, shelf: null);
        foreach (var (bus, _) in buses)
        {
            var node = graph.Source(bus.Name + Mark);
            graph.Add(new TapNode(node, static _ => { }) { Name = $"measure {node.Name}", Channels = 0 }, 0);
        }

        if (graph.Problems.Count > 0)
        {
            throw new ChainException(graph.Problems);
        }

        Node.Share(graph.Nodes);
        foreach (var node in graph.Nodes)
        {
            node.Prepare(BlockFrames);
        }

        var most = frames + graph.Nodes.Max(n => n.Latency);
        BlockScheduler.Run(graph.Nodes, (most + BlockFrames - 1) / BlockFrames, Environment.ProcessorCount, part => progress("Finding hits", part), cancel);
        return [.. buses.SelectMany(b => graph.Layers.Where(l => l.Bus == b.Bus.Name + Mark).Select(l => Record(chain, b.Bus.Name, l.Stage, l.Layer, l.Latency, frames)))];
    }

    private static bool IsLayer(Stage stage) => stage.Definition == Layer.Definition;

    private static LayerRecord Record(Chain chain, string bus, Stage stage, Layer layer, long latency, long frames)
    {
        var hits = new List<LayeredHit>();
        foreach (var hit in layer.Hits)
        {
            var seconds = (hit.Frame - latency) / chain.Song.RateHz;
            if (hit.Frame - latency < frames)
            {
                hits.Add(new LayeredHit(seconds, chain.Song.Tempo is { IsMissing: false } tempo ? tempo.BarAndBeat(seconds) : null, hit.LevelDb, hit.GainDb, hit.IsInverted, 100 * hit.Likeness));
            }
        }

        return new LayerRecord(bus, stage.Settings[Layer.Sound], stage.Line, hits);
    }
}
