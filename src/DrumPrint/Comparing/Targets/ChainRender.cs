using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Dsp;
using DrumPrint.Planning;
using DrumPrint.Rendering;
using DrumPrint.Seeking;
using DrumPrint.Session;

namespace DrumPrint.Comparing.Targets;

/// <summary>Renders some prints of a chain for comparing: as the chain says, at their own level, without tails and tickets.</summary>
internal sealed class ChainRender
{
    private const int BlockFrames = 4096;

    private readonly Chain _chain;
    private readonly SessionInputs _inputs;
    private readonly string _name;
    private readonly string _folder;
    private readonly ComparisonOptions _options;
    private readonly IProgress<PrintProgress>? _progress;
    private readonly CancellationToken _cancel;

    /// <param name="chain">The chain. A print above 0 dBFS is rendered as it is: nothing is written for anyone to keep.</param>
    /// <param name="name">What the side is called.</param>
    /// <param name="folder">Where files go while they are compared.</param>
    /// <param name="options">Threads.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops the render.</param>
    /// <exception cref="InputException">Files of the chain are missing or do not fit.</exception>
    /// <exception cref="ChainException">A goal of the chain cannot be met.</exception>
    public ChainRender(Chain chain, string name, string folder, ComparisonOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        _chain = chain with { Output = chain.Output with { LowerTogether = false } };
        _inputs = SessionInputs.Open(chain, options.Reading);
        _name = name;
        _folder = folder;
        _options = options;
        _progress = progress;
        _cancel = cancel;
        if (Seeker.IsNeeded(_chain))
        {
            _chain = new Seeker(_inputs, memory: null, Threads, part => progress?.Report(new PrintProgress($"Finding what {name} asks for", part)), cancel).Run(_chain).Chain;
        }
    }

    /// <summary>Song frame at which the raw tracks end.</summary>
    public long RawEnd => Planner(Selection([]), 0, 1).RawEnd;

    private int Threads => Math.Max(1, _options.Threads ?? Environment.ProcessorCount);

    public int RateHz => _chain.Song.RateHz;

    public TempoMap? Tempo => _chain.Song.Tempo;

    /// <summary>Renders prints over a stretch of song time, by number.</summary>
    /// <exception cref="ChainException">Settings that are each in range do not go together.</exception>
    public IReadOnlyDictionary<int, SideFile> Render(IReadOnlyCollection<int> numbers, long from, long to)
    {
        _options.Steps.MakeFolder(_folder);
        var writers = new Dictionary<int, WaveWriter>();
        try
        {
            var selection = Selection(numbers);
            using var plan = Planner(selection, from, to).Build(new PlanRequest([.. selection.All.Where(selection.Chosen.Contains)], 0, ToCap: false, KnownTailTo: 0), shelf: null, (target, channels, written) =>
            {
                var path = Path.Combine(_folder, FormattableString.Invariant($"{target.Number:00}_{from}.wav"));
                var writer = WaveWriter.Create(_options.Steps, path, new AudioFormat(RateHz, channels), SampleEncoding.Float32, null, written.To - written.From);
                writers.Add(target.Number, writer);
                return writer;
            });
            foreach (var node in plan.Nodes)
            {
                node.Prepare(BlockFrames);
            }

            BlockScheduler.Run(plan.Nodes, (plan.Frames + BlockFrames - 1) / BlockFrames, Threads, part => _progress?.Report(new PrintProgress($"Rendering {_name}", part)), _cancel);
            var gains = Gains(plan);
            var files = new Dictionary<int, SideFile>();
            foreach (var (number, writer) in writers)
            {
                writer.Finish(writer.FramesWritten);
                writer.Publish();
                files.Add(number, SideFile.Rendered(writer.Path, _name, from, Tempo, gains));
            }

            return files;
        }
        finally
        {
            foreach (var writer in writers.Values)
            {
                writer.Dispose();
            }
        }
    }

    private PrintSelection Selection(IReadOnlyCollection<int> numbers) =>
        PrintSelection.Of(_chain, [.. numbers.Select(n => FormattableString.Invariant($"{n}"))]);

    private PlanBuilder Planner(PrintSelection selection, long from, long to) => new(
        _chain,
        _inputs,
        new PrintRun.Excerpt(selection, from, to),
        SampleEncoding.Float32);

    private static List<GainLine> Gains(RenderPlan plan)
    {
        var traces = new List<GainLine>();
        foreach (var (bus, known) in plan.Traces)
        {
            var seen = new Dictionary<string, int>(StringComparer.Ordinal);
            foreach (var trace in known)
            {
                seen[trace.Processor] = seen.GetValueOrDefault(trace.Processor) + 1;
                traces.Add(new GainLine(bus.Length == 0 ? "drum bus" : bus, trace.Processor, seen[trace.Processor], trace.WindowFrames, trace.Latency, trace.LowestGain.ToArray()));
            }
        }

        return traces;
    }
}
