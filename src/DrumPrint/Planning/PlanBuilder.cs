using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.WordLength;
using DrumPrint.Prints;
using DrumPrint.Rendering;

namespace DrumPrint.Planning;

/// <summary>Plans one render of a session: which nodes, which files, how long.</summary>
/// <param name="chain">The chain.</param>
/// <param name="inputs">Its files.</param>
/// <param name="selection">What is written.</param>
/// <param name="stretch">Which part of the song is written.</param>
/// <param name="encoding">Word length.</param>
internal sealed class PlanBuilder(Chain chain, SessionInputs inputs, PrintSelection selection, SongStretch stretch, SampleEncoding encoding)
{
    private readonly int _rate = chain.Song.RateHz;

    /// <summary>Makes a fresh graph.</summary>
    /// <param name="trimDb">Common trim of all prints.</param>
    /// <param name="toCap">Whether tails are rendered to the cap instead of where the buses say they are over.</param>
    /// <param name="open">Opens the file of a chosen print, given its target, channels and the stretch written; null measures only.</param>
    /// <exception cref="ChainException">Settings that are each in range do not go together.</exception>
    public RenderPlan Build(double trimDb, bool toCap, Func<PrintTarget, int, WrittenStretch, WaveWriter?> open)
    {
        var rawEnd = RawEnd;
        var cap = Cap;
        var builder = new GraphBuilder(chain, inputs, Math.Max(cap, stretch.To ?? 0));
        try
        {
            return Build(builder, rawEnd, cap, trimDb, toCap, open);
        }
        catch
        {
            builder.Dispose();
            throw;
        }
    }

    /// <summary>Song frame at which the last raw track ends, delays included.</summary>
    public long RawEnd => chain.Tracks.Select(t => inputs.Tracks[t.Name].Frames + t.Delay.ToFrames(_rate, chain.Song.TemperatureC)).DefaultIfEmpty().Max();

    /// <summary>Song frame at which a render ends at the latest.</summary>
    public long Cap => RawEnd + Seconds(chain.Output.TailS ?? chain.Output.TailCapS);

    /// <summary>Whether every file's length comes from measured tails, and so from all prints.</summary>
    public bool MeasuresTails => chain.Output.TailS is null && stretch.To is null;

    private bool NeedsAll => MeasuresTails || (chain.Output.LowerTogether && !stretch.IsWhole);

    private RenderPlan Build(GraphBuilder builder, long rawEnd, long cap, double trimDb, bool toCap, Func<PrintTarget, int, WrittenStretch, WaveWriter?> open)
    {
        var targets = selection.All.Where(t => NeedsAll || selection.Chosen.Contains(t)).ToList();
        var wantsRough = targets.Any(t => t.Kind is PrintKind.Rough or PrintKind.RoughWithBus);
        var rendered = selection.All
            .Where(t => t.Print is not null && (targets.Contains(t) || (wantsRough && t.Kind == PrintKind.Playing)))
            .Select(t => (Target: t, Bus: builder.Source(t.Print!.Bus)))
            .ToList();

        // Playing prints are lined up once, here, for the rough and for the proof.
        var latency = rendered.Where(r => r.Target.Kind == PrintKind.Playing).Select(r => r.Bus.Latency).DefaultIfEmpty().Max();
        var sums = new List<PlannedSum>();
        var playing = new List<PlannedSum>();
        foreach (var (target, bus) in rendered)
        {
            var isPlaying = target.Kind == PrintKind.Playing;
            var node = builder.Mix($"print {target.Number:00}", null, [(bus, Unity(target.Print!.LevelDb + trimDb))], isPlaying ? latency : 0);
            var sum = new PlannedSum(target, node, bus.Latency);
            if (isPlaying)
            {
                playing.Add(sum);
            }

            if (targets.Contains(target))
            {
                sums.Add(sum);
            }
        }

        AddRoughs(builder, targets, playing, sums);
        if (builder.Problems.Count > 0)
        {
            throw new ChainException(builder.Problems);
        }

        foreach (var target in targets.Where(t => t.Kind == PrintKind.Click))
        {
            var click = new ClickNode(chain.Song.Tempo!, target.LevelDb, _rate) { Name = "click", Channels = 1 };
            sums.Add(new PlannedSum(target, builder.Add(click, 0), 0));
        }

        var end = MeasuresTails ? toCap ? cap : Math.Clamp(sums.Max(s => builder.End(s.Node)), rawEnd, cap) : stretch.To ?? cap;
        var written = new WrittenStretch(stretch.From, end, MeasuresTails || stretch.IsWhole ? Math.Min(rawEnd, end) : end);
        var prints = sums
            .OrderBy(s => s.Target.Number)
            .Select(s => AddWriter(builder, s, written, open))
            .ToList();
        var proof = AddNull(builder, prints, playing.Count);
        Node.Share(builder.Nodes);
        return new RenderPlan
        {
            Nodes = builder.Nodes,
            Prints = prints,
            Null = proof,
            Sources = builder.Sources,
            Stages = builder.Stages,
            EndFrame = end,
            Frames = end + sums.Max(s => s.Node.Latency),
        };
    }

    private void AddRoughs(GraphBuilder builder, List<PrintTarget> targets, List<PlannedSum> playing, List<PlannedSum> sums)
    {
        if (playing.Count == 0)
        {
            return;
        }

        MixNode? rough = null;
        foreach (var target in targets.Where(t => t.Kind is PrintKind.Rough or PrintKind.RoughWithBus).OrderBy(t => t.Kind))
        {
            rough ??= builder.Mix("rough", 2, [.. playing.Select(p => (p.Node, Unity(0)))]);
            if (target.Kind == PrintKind.Rough)
            {
                sums.Add(new PlannedSum(target, rough, rough.Latency));
            }
            else
            {
                var bus = builder.Through("", "drum_bus", rough, chain.DrumBus);
                sums.Add(new PlannedSum(target, builder.Mix("rough with bus", null, [(bus, Unity(target.LevelDb))]), bus.Latency));
            }
        }
    }

    private PlannedPrint AddWriter(GraphBuilder builder, PlannedSum sum, WrittenStretch written, Func<PrintTarget, int, WrittenStretch, WaveWriter?> open)
    {
        var (target, node, latency) = sum;
        var writer = selection.Chosen.Contains(target) ? open(target, node.Channels, written) : null;
        var writerNode = new WriterNode(node, written, _rate, Rounding(target, node.Channels), writer)
        {
            Name = $"write {target.Number:00}",
            Channels = node.Channels,
            Latency = node.Latency,
        };
        return new PlannedPrint(target.Kind, target.Number, target.Name, target.Print, latency, builder.Add(writerNode, 0));
    }

    private NullNode? AddNull(GraphBuilder builder, List<PlannedPrint> prints, int playing)
    {
        var written = prints.Where(p => p.Kind == PrintKind.Playing).ToList();
        var rough = prints.FirstOrDefault(p => p.Kind == PrintKind.Rough);
        if (rough is null || written.Count < playing)
        {
            return null;
        }

        var (left, right) = PanLaw.Mono(0, chain.Song.PanLawDb);
        var feeds = written.Select(p => new Feeding(p.Writer, 0, p.Writer.Channels == 1 ? [[left], [right]] : [[1, 0], [0, 1]], null)).ToList();
        return builder.Add(new NullNode(feeds, rough.Writer) { Name = "null", Channels = 2, Latency = rough.Writer.Latency }, 0);
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
        return bits is { } n
            ? new Quantizer(n, dither ? Dither.Tpdf : Dither.None, CounterNoise.FromName(target.Name), channels).Process
            : SingleRounding.Process;
    }

    private long Seconds(double seconds) => (long)Math.Round(seconds * _rate);

    private static Feed Unity(double levelDb) => new("", levelDb, null, false, Delay.None, [], 0);

    /// <summary>What one file is written from.</summary>
    /// <param name="Target">The file.</param>
    /// <param name="Node">Its signal.</param>
    /// <param name="Latency">Latency of what it is made of.</param>
    private sealed record PlannedSum(PrintTarget Target, Node Node, long Latency);
}

/// <summary>Part of a song to write, in frames.</summary>
/// <param name="From">First frame.</param>
/// <param name="To">One past the last frame; null for the end with its tail.</param>
/// <param name="IsWhole">Whether that is the whole song, at a length and trim known from an earlier run.</param>
internal sealed record SongStretch(long From, long? To, bool IsWhole = false);
