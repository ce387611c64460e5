using System.Text.RegularExpressions;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Files;
using DrumPrint.Planning;
using DrumPrint.Rendering;
using DrumPrint.Session;

namespace DrumPrint.Measuring;

/// <summary>Runs the buses of a chain up to some of their processors, and nothing else, so that what goes on there can be heard.</summary>
internal sealed partial class CutRun : IDisposable
{
    private const int BlockFrames = 4096;

    // No name in a chain holds it.
    private const char Mark = '\u0001';

    private readonly GraphBuilder _graph;

    /// <param name="chain">The chain.</param>
    /// <param name="reading">Which files it may name.</param>
    /// <param name="cuts">Buses, and how many of their processors are run.</param>
    /// <exception cref="InputException">Files are missing or do not fit.</exception>
    public CutRun(Chain chain, ReadPolicy reading, IEnumerable<(Bus Bus, int Stages)> cuts)
    {
        var inputs = SessionInputs.Open(chain, reading);
        Frames = inputs.Tracks.Values.Max(t => t.Frames);
        var more = cuts.Distinct().Select(c => c.Bus with { Name = NameOf(c.Bus, c.Stages), Stages = [.. c.Bus.Stages.Take(c.Stages)] });
        _graph = new GraphBuilder(chain with { Buses = [.. chain.Buses, .. more] }, inputs, Frames, AudioHashes.None, shelf: null);
    }

    /// <summary>Frames of the longest track.</summary>
    public long Frames { get; }

    /// <summary>What the graph knows of layers, under the names of <see cref="NameOf"/>.</summary>
    public GraphBuilder Graph => _graph;

    /// <summary>What a cut bus is called.</summary>
    public static string NameOf(Bus bus, int stages) => FormattableString.Invariant($"{bus.Name}{Mark}{stages}");

    /// <summary>Hears a track, a bus or a cut bus.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="see">Gets its blocks in order, and by how many frames they lag song time.</param>
    public void Hear(string name, Action<AudioBlock, long> see)
    {
        var node = _graph.Source(name);
        _graph.Add(new TapNode(node, block => see(block, node.Latency)) { Name = $"measure {node.Name}", Channels = 0 }, 0);
    }

    /// <summary>Runs all that is heard, to its end.</summary>
    /// <exception cref="ChainException">Settings do not go together.</exception>
    public void Run(Action<string, double> progress, CancellationToken cancel)
    {
        if (_graph.Problems.Count > 0)
        {
            throw new ChainException([.. _graph.Problems.Select(p => p with { Place = Marks().Replace(p.Place, "") }).Distinct()]);
        }

        Node.Share(_graph.Nodes);
        foreach (var node in _graph.Nodes)
        {
            node.Prepare(BlockFrames);
        }

        var most = Frames + _graph.Nodes.Max(n => n.Latency);
        BlockScheduler.Run(_graph.Nodes, (most + BlockFrames - 1) / BlockFrames, Environment.ProcessorCount, part => progress("Finding hits", part), cancel);
    }

    public void Dispose() => _graph.Dispose();

    [GeneratedRegex("\u0001[0-9]+")]
    private static partial Regex Marks();
}
