using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Rendering;
using DrumPrint.Session;
using DrumPrint.Store;

namespace DrumPrint.Planning;

/// <summary>Turns tracks and buses into nodes, each path lined up with those it meets.</summary>
/// <remarks>Nodes are made the first time something needs them, so the list that results is in topological order.</remarks>
/// <param name="chain">The chain.</param>
/// <param name="inputs">Its files.</param>
/// <param name="renderFrames">Longest render.</param>
/// <param name="hashes">Which hashes are taken of raw files as they are read.</param>
/// <param name="shelf">Signals that were kept; null to compute all of them.</param>
internal sealed class GraphBuilder(Chain chain, SessionInputs inputs, long renderFrames, AudioHashes hashes, SignalShelf? shelf) : IDisposable
{
    private readonly Dictionary<string, Track> _tracks = chain.Tracks.ToDictionary(t => t.Name, StringComparer.Ordinal);
    private readonly Dictionary<string, Bus> _buses = chain.Buses.ToDictionary(b => b.Name, StringComparer.Ordinal);
    private readonly Dictionary<string, Node> _made = new(StringComparer.Ordinal);
    private readonly Dictionary<Node, long> _end = [];
    private readonly Dictionary<string, ITrackSource> _sources = new(StringComparer.Ordinal);
    private readonly Dictionary<string, IReadOnlyList<GainTrace>> _traces = new(StringComparer.Ordinal);
    private readonly Dictionary<RecordingKey, SharedRecording> _recordings = [];
    private readonly List<SignalReader> _kept = [];
    private readonly List<(Bus Bus, Node Node)> _computed = [];
    private readonly List<Node> _nodes = [];
    private readonly List<ChainProblem> _problems = [];
    private readonly List<(string Bus, Stage Stage, Layer Layer, long Latency)> _layers = [];
    private readonly List<PlannedStage> _stages = [];

    /// <summary>Whether processors that take each channel by itself make a step of each.</summary>
    public bool SplitsChannels { get; init; }

    /// <summary>Opens some channels of a recording in another way than from its file; null for the plain way.</summary>
    public Func<TrackInput, IReadOnlyList<int>, ITrackSource>? Opens { get; init; }

    /// <summary>Where processors keep filters and the like; one memory for all of them.</summary>
    public DesignMemory Designs { get; init; } = new();

    /// <summary>Whether the sound is heard while it is made.</summary>
    public bool IsHeardLive { get; init; }

    public IReadOnlyList<Node> Nodes => _nodes;

    public IReadOnlyDictionary<string, ITrackSource> Sources => _sources;

    /// <summary>What the processors of each bus do to the gain; the drum bus under an empty name.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<GainTrace>> Traces => _traces;

    /// <summary>Layers that are computed, and by how many frames what they hear lags song time.</summary>
    public IReadOnlyList<(string Bus, Stage Stage, Layer Layer, long Latency)> Layers => _layers;

    /// <summary>Processors that are run, in the order in which they were made.</summary>
    public IReadOnlyList<PlannedStage> Stages => _stages;

    /// <summary>Kept signals that are read.</summary>
    public IReadOnlyList<SignalReader> Kept => _kept;

    /// <summary>Buses that are computed, and their outputs.</summary>
    public IReadOnlyList<(Bus Bus, Node Node)> Computed => _computed;

    /// <summary>Settings that do not go together, found while making processors.</summary>
    public IReadOnlyList<ChainProblem> Problems => _problems;

    /// <summary>The node of a track or bus.</summary>
    public Node Source(string name)
    {
        if (_made.TryGetValue(name, out var made))
        {
            return made;
        }

        var node = _tracks.TryGetValue(name, out var track) ? MakeTrack(track) : MakeBus(_buses[name]);
        _made.Add(name, node);
        return node;
    }

    /// <summary>Whether a node has been made for a track or bus.</summary>
    public bool Has(string name) => _made.ContainsKey(name);

    /// <summary>Song frame after which a node gives silence, to about −120 dB.</summary>
    public long End(Node node) => _end[node];

    /// <summary>Adds a node made outside.</summary>
    public T Add<T>(T node, long end)
        where T : Node
    {
        _nodes.Add(node);
        _end[node] = end;
        return node;
    }

    /// <summary>Takes a node of another graph for a track or bus. It is not among this one's <see cref="Nodes"/>.</summary>
    public void Adopt(string name, Node node, long end)
    {
        _made.Add(name, node);
        _end[node] = end;
    }

    /// <summary>Sums feeds into a new node.</summary>
    /// <param name="name">Name of the sum.</param>
    /// <param name="channels">1 or 2; null for stereo as soon as a feed is stereo or panned.</param>
    /// <param name="feeds">Sources and how they come in.</param>
    /// <param name="leastLatency">Latency the sum has at least.</param>
    public MixNode Mix(string name, int? channels, IReadOnlyList<(Node Source, Feed Feed)> feeds, long leastLatency = 0)
    {
        feeds = [.. feeds.Select(f => (Late(f.Source, $"{name}/{f.Feed.Source}", f.Feed.Delay), f.Feed))];
        var width = channels ?? (feeds.Any(f => f.Source.Channels == 2 || f.Feed.PanPct is not null) ? 2 : 1);
        var latency = Math.Max(leastLatency, feeds.Max(f => f.Source.Latency));
        var end = 0L;
        var lined = new List<Feeding>();
        foreach (var (source, feed) in feeds)
        {
            var delay = Parts(feed.Delay).Whole;
            end = Math.Max(end, End(source) + delay);
            lined.Add(new Feeding(source, latency - source.Latency + delay, Gains(source.Channels, width, feed), Rides(feed)));
        }

        return Add(new MixNode(lined) { Name = name, Channels = width, Latency = latency }, end);
    }

    /// <summary>Runs a node through processors.</summary>
    /// <param name="name">Name of the bus; empty for the drum bus.</param>
    /// <param name="place">Where the stages stand in the chain.</param>
    /// <param name="input">What comes in.</param>
    /// <param name="stages">Processors in order.</param>
    public Node Through(string name, string place, Node input, IReadOnlyList<Stage> stages)
    {
        var traces = new List<GainTrace>();
        var node = input;
        for (var i = 0; i < stages.Count; i++)
        {
            var stage = stages[i];
            var key = stage.Key is null ? null : Source(stage.Key);
            var context = new ProcessorContext(new AudioFormat(chain.Song.RateHz, node.Channels), renderFrames, key?.Channels ?? 0, inputs.Impulses) { Designs = Designs, IsHeardLive = IsHeardLive };
            try
            {
                var label = $"{(name.Length == 0 ? "drum bus" : name)}/{stage.Definition.Key}";
                if (SplitsChannels && stage.Definition.HasSeparateChannels(stage.Settings) && node.Channels == 2)
                {
                    node = SideSteps.Add(this, label, node, () => stage.Definition.Create(stage.Settings, context with { Format = context.Format with { Channels = 1 } }));
                    continue;
                }

                var processor = stage.Definition.Create(stage.Settings, context);
                var latency = Math.Max(node.Latency, key?.Latency ?? 0);
                var stageNode = new StageNode(
                    new Feeding(node, latency - node.Latency, [], null),
                    key is null ? null : new Feeding(key, latency - key.Latency, [], null),
                    processor)
                {
                    Name = label,
                    Channels = stage.Definition.OutputChannels(stage.Settings, context),
                    Latency = latency + processor.LatencyFrames,
                };
                node = Add(stageNode, End(node) + processor.TailFrames);
                if (processor is Layer layer)
                {
                    _layers.Add((name, stage, layer, latency));
                }

                List<GainTrace> own = [.. GainTrace.Of(stage.Definition.Key, processor, stageNode.Latency)];
                traces.AddRange(own);
                _stages.Add(new PlannedStage(name, stage, stageNode, own));
            }
            catch (SettingsException e)
            {
                _problems.Add(new ChainProblem(chain.FileOf(place), stage.Line, 1, $"{place}.through[{i}].{stage.Definition.Key}", e.Message));
            }
        }

        _traces[name] = traces;
        return node;
    }

    /// <summary>Adds a kept signal in place of the nodes that would compute it.</summary>
    public Node Keep(SignalReader reader)
    {
        _kept.Add(reader);
        return Add(new KeptNode(reader) { Name = $"{reader.Header.Name} (kept)", Channels = reader.Header.Channels, Latency = reader.Header.Latency }, reader.Header.End);
    }

    public void Dispose()
    {
        foreach (var reader in _kept)
        {
            reader.Dispose();
        }

        foreach (var source in _sources.Values.Distinct())
        {
            source.Dispose();
        }
    }

    private sealed record SharedRecording(ITrackSource Source, Node Node, List<int> Channels);

    private (long Whole, double Part) Parts(Chains.PathDelay delay) => delay.Parts(chain.Song.RateHz, chain.Song.TemperatureC);

    // The part of a frame that a delay is to keep; whole frames are left to whoever reads the node.
    private Node Late(Node node, string name, Chains.PathDelay delay)
    {
        var part = Parts(delay).Part;
        if (part == 0)
        {
            return node;
        }

        var processor = Dsp.Processors.Delay.OfFrames(part, node.Channels);
        var late = new StageNode(new Feeding(node, 0, [], null), null, processor)
        {
            Name = $"{name}/delay",
            Channels = node.Channels,
            Latency = node.Latency + processor.LatencyFrames,
        };
        return Add(late, End(node) + processor.TailFrames);
    }

    private Node MakeTrack(Track track)
    {
        var input = inputs.Tracks[track.Name];
        var wait = track.Wait(chain.Song.RateHz, chain.Song.TemperatureC);
        var delay = Parts(wait).Whole;
        var gain = Decibels.ToGain(track.LevelDb) * (track.IsInverted ? -1 : 1);
        Node node;
        if (input.Channel is { } channel && Shared(input) is { } shared)
        {
            _sources.Add(track.Name, shared.Source);
            node = new ChannelNode(shared.Node, shared.Channels.IndexOf(channel), gain, delay) { Name = track.Name, Channels = 1 };
        }
        else
        {
            var source = Opens is null ? input.Open(hashes) : Opens(input, input.FileChannels);
            _sources.Add(track.Name, source);
            node = new TrackNode(source, gain, delay) { Name = track.Name, Channels = source.Channels };
        }

        return Late(Add(node, input.Frames + delay), track.Name, wait);
    }

    // One reading for all tracks that are channels of one file; null for a track that is the only one.
    private SharedRecording? Shared(TrackInput input)
    {
        if (_recordings.TryGetValue(input.Recording, out var known))
        {
            return known;
        }

        List<int> channels = [.. _tracks.Keys.Select(t => inputs.Tracks[t]).Where(i => i.Recording == input.Recording).Select(i => i.Channel).OfType<int>().Distinct().Order()];
        if (channels.Count == 1)
        {
            return null;
        }

        var source = Opens is null ? input.Open(hashes, channels) : Opens(input, channels);
        var node = Add(new RecordingNode(source) { Name = input.Track.File, Channels = source.Channels }, input.Frames);
        var shared = new SharedRecording(source, node, channels);
        _recordings.Add(input.Recording, shared);
        return shared;
    }

    private Node MakeBus(Bus bus)
    {
        if (SignalShelf.IsCostly(bus) && shelf?.Bus(bus.Name) is { } kept)
        {
            TakeTraces(bus, kept);
            return Keep(kept);
        }

        var mix = Mix(bus.Name, bus.Channels, [.. bus.Feeds.Select(f => (Source(f.Source), f))]);
        var node = Through(bus.Name, $"buses.{bus.Name}", mix, bus.Stages);
        _computed.Add((bus, node));
        return node;
    }

    // Buses behind a kept signal are not computed, so it brings their traces along.
    private void TakeTraces(Bus bus, SignalReader kept)
    {
        foreach (var name in FeedingBuses.Of(chain, bus.Name))
        {
            _traces.TryAdd(name, kept.Traces.GetValueOrDefault(shelf!.KeyOf(name)) ?? []);
        }
    }

    private double[][] Gains(int from, int to, Feed feed)
    {
        var gain = Decibels.ToGain(feed.LevelDb) * (feed.IsInverted ? -1 : 1);
        if (to == 1)
        {
            // A stereo feed of a mono bus: the mean of both sides, so that equal sides keep their level.
            return from == 1 ? [[gain]] : [[gain / 2, gain / 2]];
        }

        if (from == 1)
        {
            var (left, right) = PanLaw.Mono(feed.PanPct ?? 0, chain.Song.PanLawDb);
            return [[gain * left], [gain * right]];
        }

        var balance = PanLaw.Stereo(feed.PanPct ?? 0);
        return [[gain * balance.Left, 0], [0, gain * balance.Right]];
    }

    private RideCurve? Rides(Feed feed)
    {
        if (feed.Rides.Count == 0)
        {
            return null;
        }

        return new RideCurve([.. feed.Rides.Select(r =>
        {
            var (from, to, fade) = RideFrames.Of(r, chain.Song);
            return new RideStretch(from, to, fade, r.Db);
        })]);
    }
}
