using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.WordLength;
using DrumPrint.Rendering;
using DrumPrint.Session;
using DrumPrint.Store;

namespace DrumPrint.Planning;

/// <summary>Plans one render of a session: which nodes, which files, how long.</summary>
/// <param name="chain">The chain.</param>
/// <param name="inputs">Its files.</param>
/// <param name="run">What is written, and which part of the song.</param>
/// <param name="encoding">Word length.</param>
/// <param name="threads">How many threads will share the steps; never changes a bit.</param>
internal sealed class PlanBuilder(Chain chain, SessionInputs inputs, PrintRun run, SampleEncoding encoding, int threads = 1)
{
    // Fewer have enough to share, and two steps for two channels cost 5 to 7 % of the whole job, as measured on two.
    private const int ThreadsThatWait = 4;

    // What lies so little past a whole second begins no other. Own bar: farther than any microphone of a kit is moved to meet another
    // (17 m of air), and shorter than anything rings on.
    private const double SpareS = 0.05;

    private readonly int _rate = chain.Song.RateHz;

    // One print measures and then renders, by two graphs of the same filters.
    private readonly DesignMemory _designs = new();

    /// <summary>Makes a fresh graph.</summary>
    /// <param name="request">What is wanted.</param>
    /// <param name="shelf">Signals that were kept; null to compute all of them.</param>
    /// <param name="open">Opens the file of a chosen print, given its target, channels and the stretch written; null measures only.</param>
    /// <exception cref="ChainException">Settings that are each in range do not go together.</exception>
    public RenderPlan Build(PlanRequest request, SignalShelf? shelf, Func<PrintTarget, int, WrittenStretch, WaveWriter?> open)
    {
        while (true)
        {
            var builder = new GraphBuilder(chain, inputs, Math.Max(Cap, run.To ?? 0), request.Hashes, shelf) { SplitsChannels = threads >= ThreadsThatWait && !run.BeginsLate, Designs = _designs };
            try
            {
                if (Build(builder, request, shelf, open) is { } plan)
                {
                    return plan;
                }

                builder.Dispose();
            }
            catch
            {
                builder.Dispose();
                throw;
            }
        }
    }

    /// <summary>Song frame at which the last raw track ends, delays included.</summary>
    public long RawEnd => chain.Tracks.Select(t => inputs.Tracks[t.Name].Frames + t.Wait(_rate, chain.Song.TemperatureC).ToFrames(_rate, chain.Song.TemperatureC)).DefaultIfEmpty().Max();

    /// <summary>Song frame at which a render ends at the latest: a whole second.</summary>
    public long Cap => WholeSeconds.Up(RawEnd + Seconds(chain.Output.TailS ?? chain.Output.TailCapS), _rate);

    /// <summary>Song frame at which every file ends. A whole song ends at a whole second. So a few frames more of one track leave
    /// the files of all others as they are. Every raw file is in it from end to end. What a delay or a tail puts past it by less
    /// than 50 ms is left off. An excerpt ends where it was told to.</summary>
    /// <param name="quietFrom">Song frame from which the longest tail is over; not used where tails are not measured.</param>
    public long End(long quietFrom) => run.To ?? (MeasuresTails ? Whole(LongestRaw, Math.Max(RawEnd, quietFrom)) : Whole(LongestRaw + FixedTail, RawEnd + FixedTail));

    /// <summary>Frames by which a tail outlasts the raw tracks; 0 for one that ends within the same 10 ms.</summary>
    /// <param name="quietFrom">Song frame from which it is over.</param>
    public long Tail(long quietFrom) => quietFrom <= TailPeaks.WindowEnd(RawEnd, _rate) ? 0 : quietFrom - RawEnd;

    /// <summary>Whether every file's length comes from measured tails, and so from all prints.</summary>
    public bool MeasuresTails => chain.Output.TailS is null && run.ReadsToEnd;

    /// <summary>Whether a run needs to know of all prints, whichever are written.</summary>
    public bool NeedsAll => MeasuresTails || (chain.Output.LowerTogether && !run.IsSettled && run.KnownTrimDb is null);

    // Null when a kept signal turns out to be too short, which is then left aside.
    private RenderPlan? Build(GraphBuilder builder, PlanRequest request, SignalShelf? shelf, Func<PrintTarget, int, WrittenStretch, WaveWriter?> open)
    {
        var wantsRough = request.Targets.Any(t => t.Kind is PrintKind.Rough or PrintKind.RoughWithBus);
        var kept = wantsRough ? shelf?.Rough(request.TrimDb) : null;
        var rendered = run.Selection.All
            .Where(t => t.Print is not null && (request.Targets.Contains(t) || (wantsRough && kept is null && t.Kind == PrintKind.Playing)))
            .Select(t => (Target: t, Bus: builder.Source(t.Print!.Bus)))
            .ToList();

        // Playing prints are lined up once, here, for the rough and for the proof.
        var latency = rendered.Where(r => r.Target.Kind == PrintKind.Playing).Select(r => r.Bus.Latency).DefaultIfEmpty().Max();
        var sums = new List<PlannedSum>();
        var playing = new List<Node>();
        foreach (var (target, bus) in rendered)
        {
            var isPlaying = target.Kind == PrintKind.Playing;
            var node = builder.Mix($"print {target.Number:00}", null, [(bus, Unity(target.Print!.LevelDb + request.TrimDb))], isPlaying ? latency : 0);
            if (isPlaying)
            {
                playing.Add(node);
            }

            if (request.Targets.Contains(target))
            {
                sums.Add(new PlannedSum(target, node, bus.Latency));
            }
        }

        var rough = !wantsRough ? null : kept is null ? builder.Mix("rough", 2, [.. playing.Select(p => (p, Unity(0)))]) : builder.Keep(kept);
        AddRoughs(builder, request, rough, sums);
        if (builder.Problems.Count > 0)
        {
            throw new ChainException(builder.Problems);
        }

        foreach (var target in request.Targets.Where(t => t.Kind == PrintKind.Click))
        {
            var click = new ClickNode(chain.Song.Tempo!, target.LevelDb, _rate) { Name = "click", Channels = 1 };
            sums.Add(new PlannedSum(target, builder.Add(click, click.LoudestTo), 0));
        }

        var tails = sums.ToDictionary(s => s.Node, s => TailTo(builder.End(s.Node), request.ToCap));
        var end = End(Math.Max(request.KnownTailTo, tails.Values.Max()));
        var frames = end + sums.Max(s => s.Node.Latency);

        // Whoever looks ahead reads a kept signal past the end of the files, as it reads a computed one.
        var tooShort = builder.Kept.Where(k => k.Header.Frames < frames).ToList();
        if (tooShort.Count > 0)
        {
            tooShort.ForEach(k => shelf!.Leave(k.Header.Key));
            return null;
        }

        var written = new WrittenStretch(run.From, end, MeasuresTails ? Math.Min(End(0), end) : end, end);
        var prints = sums
            .OrderBy(s => s.Target.Number)
            .Select(s => AddWriter(builder, s, MeasuresTails ? written with { TailTo = tails[s.Node] } : written, open))
            .ToList();
        var proof = AddNull(builder, prints, written);
        var keeping = AddKeeping(builder, request, shelf, kept is null ? rough : null, frames);
        Node.Share(builder.Nodes);
        return new RenderPlan
        {
            Keeping = keeping,
            Nodes = builder.Nodes,
            Prints = prints,
            Null = proof,
            Sources = builder.Sources,
            Traces = builder.Traces,
            Kept = builder.Kept,
            Frames = frames,
            Late = run.BeginsLate ? LateBegin.Of(builder, run.From, _rate) : null,
        };
    }

    // Where a print's own tail is over: where its processors say so and a window more, in which that shows.
    private long TailTo(long end, bool toCap) => toCap ? Cap : Math.Min(Cap, TailPeaks.WindowEnd(TailPeaks.WindowEnd(end, _rate) + 1, _rate));

    private void AddRoughs(GraphBuilder builder, PlanRequest request, Node? rough, List<PlannedSum> sums)
    {
        foreach (var target in request.Targets.Where(t => t.Kind is PrintKind.Rough or PrintKind.RoughWithBus).OrderBy(t => t.Kind))
        {
            if (target.Kind == PrintKind.Rough)
            {
                sums.Add(new PlannedSum(target, rough!, rough!.Latency));
            }
            else
            {
                var bus = builder.Through("", "drum_bus", rough!, chain.DrumBus);
                sums.Add(new PlannedSum(target, builder.Mix("rough with bus", null, [(bus, Unity(target.LevelDb))]), bus.Latency));
            }
        }
    }

    // What is costly to compute and goes on to another bus or the rough; and the rough, for the next change of the drum bus.
    private List<SignalWriter> AddKeeping(GraphBuilder builder, PlanRequest request, SignalShelf? shelf, Node? rough, long frames)
    {
        var writers = new List<SignalWriter>();
        if (shelf is null)
        {
            return writers;
        }

        var heard = chain.Buses.SelectMany(b => b.Feeds.Select(f => f.Source).Concat(b.Stages.Select(s => s.Key)))
            .Concat(chain.DrumBus.Select(s => s.Key))
            .Concat(run.Selection.All.Any(t => t.Kind is PrintKind.Rough or PrintKind.RoughWithBus) ? chain.Prints.Where(p => !p.IsOptional).Select(p => p.Bus) : [])
            .OfType<string>()
            .ToHashSet(StringComparer.Ordinal);
        foreach (var (bus, node) in builder.Computed.Where(c => heard.Contains(c.Bus.Name) && SignalShelf.IsCostly(c.Bus)).ToList())
        {
            Add(node, shelf.KeepBus(bus.Name, node.Channels, frames, node.Latency, builder.End(node), FeedingBuses.Of(chain, bus.Name).ToDictionary(b => b, b => builder.Traces[b])));
        }

        if (rough is not null && run.Selection.All.Any(t => t.Kind == PrintKind.RoughWithBus))
        {
            Add(rough, shelf.KeepRough(request.TrimDb, frames, rough.Latency, builder.End(rough)));
        }

        return writers;

        void Add(Node node, SignalWriter? writer)
        {
            if (writer is not null)
            {
                writers.Add(writer);
                builder.Add(new KeepingNode(node, writer) { Name = $"keep {node.Name}", Channels = 0 }, 0);
            }
        }
    }

    private PlannedPrint AddWriter(GraphBuilder builder, PlannedSum sum, WrittenStretch written, Func<PrintTarget, int, WrittenStretch, WaveWriter?> open)
    {
        var (target, node, latency) = sum;
        var writer = run.Selection.Chosen.Contains(target) ? open(target, node.Channels, written) : null;
        var writerNode = new WriterNode(node, written, _rate, Rounding(target, node.Channels), writer)
        {
            Name = $"write {target.Number:00}",
            Channels = node.Channels,
            Latency = node.Latency,
        };
        return new PlannedPrint(target.Kind, target.Number, target.Name, target.Print, latency, builder.Add(writerNode, 0));
    }

    private NullNode? AddNull(GraphBuilder builder, List<PlannedPrint> prints, WrittenStretch stretch)
    {
        var written = prints.Where(p => p.Kind == PrintKind.Playing).ToList();
        var rough = prints.FirstOrDefault(p => p.Kind == PrintKind.Rough);
        if (rough is null || written.Count < run.Selection.All.Count(t => t.Kind == PrintKind.Playing))
        {
            return null;
        }

        var (left, right) = PanLaw.Mono(0, chain.Song.PanLawDb);
        var feeds = written.Select(p => new Feeding(p.Writer, 0, p.Writer.Channels == 1 ? [[left], [right]] : [[1, 0], [0, 1]], null)).ToList();
        return builder.Add(new NullNode(feeds, rough.Writer, stretch, _rate) { Name = "null", Channels = 2, Latency = rough.Writer.Latency }, 0);
    }

    private BlockRounding Rounding(PrintTarget target, int channels)
    {
        int? bits = encoding switch
        {
            SampleEncoding.Pcm16 => 16,
            SampleEncoding.Pcm24 => 24,
            SampleEncoding.Pcm32 => 32,
            _ => null,
        };
        var dither = chain.Output.Dither ?? encoding == SampleEncoding.Pcm16;
        if (bits is not { } n)
        {
            return static (_, source, into) => SingleRounding.Process(source, into);
        }

        var quantizer = new Quantizer(n, dither ? Dither.Tpdf : Dither.None, CounterNoise.FromName(target.Name), channels);
        return (frame, source, into) =>
        {
            quantizer.GoTo(frame);
            quantizer.Process(source, into);
        };
    }

    private long LongestRaw => chain.Tracks.Select(t => inputs.Tracks[t.Name].Frames).DefaultIfEmpty().Max();

    private long FixedTail => Seconds(chain.Output.TailS ?? 0);

    private long Whole(long kept, long end) => Math.Max(WholeSeconds.Up(kept, _rate), WholeSeconds.Up(Math.Max(0, end - Seconds(SpareS)), _rate));

    private long Seconds(double seconds) => (long)Math.Round(seconds * _rate);

    private static Feed Unity(double levelDb) => new("", levelDb, null, false, PathDelay.None, [], 0);

    /// <summary>What one file is written from.</summary>
    /// <param name="Target">The file.</param>
    /// <param name="Node">Its signal.</param>
    /// <param name="Latency">Latency of what it is made of.</param>
    private sealed record PlannedSum(PrintTarget Target, Node Node, long Latency);
}
