using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Planning;
using DrumPrint.Rendering;
using DrumPrint.Session;

namespace DrumPrint.Seeking;

/// <summary>Renders what comes to one processor of a chain, and whatever is tried on it, as often as asked.</summary>
/// <param name="chain">The chain; whatever feeds the processor is settled.</param>
/// <param name="inputs">Its files.</param>
/// <param name="before">The bus as far as the processor.</param>
/// <param name="stage">The processor.</param>
/// <param name="place">Where it stands in the chain.</param>
/// <param name="threads">Threads to render with; they change nothing.</param>
/// <param name="progress">Told the part done of each rendering.</param>
/// <param name="cancel">Stops it.</param>
internal sealed class SeekGraph(Chain chain, SessionInputs inputs, Bus before, Stage stage, string place, int threads, Action<double> progress, CancellationToken cancel)
{
    private const int BlockFrames = 4096;

    /// <summary>Frames in a second.</summary>
    public int RateHz { get; } = chain.Song.RateHz;

    /// <summary>Song frame at which the raw tracks end.</summary>
    public long Frames { get; } = FramesOf(chain, inputs);

    /// <summary>The processor.</summary>
    public Stage Stage => stage;

    /// <summary>Where it stands in the chain.</summary>
    public string Place => place;

    /// <summary>Song frame at which the raw tracks of a chain end, delays included.</summary>
    public static long FramesOf(Chain chain, SessionInputs inputs) =>
        chain.Tracks.Select(t => inputs.Tracks[t.Name].Frames + t.Wait(chain.Song.RateHz, chain.Song.TemperatureC).ToFrames(chain.Song.RateHz, chain.Song.TemperatureC)).DefaultIfEmpty().Max();

    /// <summary>Renders once.</summary>
    /// <typeparam name="T">What is read off.</typeparam>
    /// <param name="add">Adds what is tried to the graph; given the graph, what comes in, and the key, if there is one.</param>
    /// <param name="read">Reads it off, while the graph is still there.</param>
    /// <exception cref="ChainException">Settings that are each in range do not go together.</exception>
    public T Run<T>(Func<GraphBuilder, Node, Node?, T> add, Action<GraphBuilder, T> read)
    {
        using var graph = new GraphBuilder(chain with { Buses = [.. chain.Buses, before] }, inputs, Frames, AudioHashes.None, shelf: null);
        var added = add(graph, graph.Source(before.Name), stage.Key is { } key ? graph.Source(key) : null);
        if (graph.Problems.Count > 0)
        {
            throw new ChainException(graph.Problems);
        }

        Node.Share(graph.Nodes);
        foreach (var node in graph.Nodes)
        {
            node.Prepare(BlockFrames);
        }

        var frames = Frames + graph.Nodes.Max(n => n.Latency);
        BlockScheduler.Run(graph.Nodes, (frames + BlockFrames - 1) / BlockFrames, threads, progress, cancel);
        read(graph, added);
        return added;
    }

    /// <summary>Adds somebody who only listens, to the input and the key as the processor would hear them.</summary>
    /// <param name="graph">Takes it.</param>
    /// <param name="name">Its name.</param>
    /// <param name="input">What comes in.</param>
    /// <param name="key">The key; null without one.</param>
    /// <param name="create">Makes it, given the context and the frames by which it hears late.</param>
    public T Listen<T>(GraphBuilder graph, string name, Node input, Node? key, Func<ProcessorContext, long, T> create)
        where T : IProcessor
    {
        var latency = Math.Max(input.Latency, key?.Latency ?? 0);
        var listener = create(new ProcessorContext(new AudioFormat(RateHz, input.Channels), Frames, key?.Channels ?? 0, inputs.Impulses), latency);
        var node = new StageNode(new Feeding(input, latency - input.Latency, [], null), key is null ? null : new Feeding(key, latency - key.Latency, [], null), listener)
        {
            Name = name,
            Channels = input.Channels,
            Latency = latency,
        };
        graph.Add(node, 0);
        return listener;
    }

    /// <summary>Says that a goal cannot be met.</summary>
    public ChainException Refusal(string message) => new([new ChainProblem(chain.FileOf(place[..place.LastIndexOf(".through[", StringComparison.Ordinal)]), stage.Line, 1, place, message)]);
}
