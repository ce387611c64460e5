using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Planning;
using DrumPrint.Seeking;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Runs;

/// <summary>What stays the same however often a run tries.</summary>
internal sealed record RunSetup(
    Chain Chain,
    PrintOptions Options,
    PrintRun Run,
    SessionInputs Inputs,
    SampleEncoding Encoding,
    PlanBuilder Planner,
    string Folder)
{
    /// <summary>Held from the first file a run writes to its ticket.</summary>
    public FolderLock Lock { get; } = new(Options.Steps);

    /// <summary>Changes folders.</summary>
    public FileSteps Steps => Options.Steps;

    /// <summary>Makes the records of the run's prints.</summary>
    public RunRecord Record { get; } = new(Chain, Run, Inputs, Encoding);

    /// <summary>Numbers that were found for goals of the chain, a sentence each.</summary>
    public IReadOnlyList<string> Found { get; init; } = [];

    /// <summary>What earlier runs kept; null to go without.</summary>
    public RunStore? Store { get; init; }

    public PrintSelection Selection => Run.Selection;

    public int Threads => ThreadsOf(Options);

    /// <summary>Which hashes are taken of raw files while they are rendered. With a store, it is only enough to see that they are
    /// still what it hashed before.</summary>
    public AudioHashes Hashes => Store is not null ? AudioHashes.Likeness
        : Run.WritesTicket ? AudioHashes.Samples | AudioHashes.File
        : Run.IsOfWholeSong ? AudioHashes.Samples
        : AudioHashes.None;

    /// <summary>Files whose figures a run must know.</summary>
    public IReadOnlyList<PrintTarget> Needed => [.. Selection.All.Where(t => Planner.NeedsAll || Selection.Chosen.Contains(t))];

    /// <summary>Whether what is there is looked at, so that only what changed is rendered.</summary>
    public bool LooksForChanges => Store is not null && Run.IsOfWholeSong;

    public string NameOf(PrintTarget target) => Run.NameOf(target, Chain.Song);

    public string PathOf(PrintTarget target) => Path.Combine(Folder, NameOf(target));

    public AudioFormat Format(int channels) => new(Chain.Song.RateHz, channels);

    /// <summary>Finds out what a run is made of, and refuses what cannot be.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="options">How the run differs from what the chain says.</param>
    /// <exception cref="InputException">Raw tracks or impulses are missing or do not fit.</exception>
    /// <exception cref="UsageException">The options do not fit the chain.</exception>
    public static RunSetup Of(Chain chain, PrintOptions options)
    {
        var run = PrintRun.Of(chain, options);
        if (run is PrintRun.Excerpt { IsQuick: true } stretch)
        {
            run = stretch with { LastTrimDb = PrintedTrim.Of(chain) };
        }

        var inputs = SessionInputs.Open(chain, options.Reading, run.Places, run.Starts);
        var encoding = options.Encoding ?? chain.Output.Encoding;
        var planner = new PlanBuilder(chain, inputs, run, encoding, ThreadsOf(options));
        var folder = options.OutFolder ?? Path.Combine(chain.Folder, run.FolderName);
        if (options.OutFolder is null && new DirectoryInfo(folder).LinkTarget is { } target)
        {
            // A session may come by mail, and its link lead anywhere.
            throw new UsageException($"{folder} is a link to {Show.Name(target)}. A session's own link is not written through; if you mean that folder, name it with --out.");
        }

        InputGuard.Check(folder, options.OutFolder is not null, inputs);
        if (run is PrintRun.Excerpt excerpt)
        {
            CheckPlace(excerpt, planner, chain.Song.RateHz);
        }

        return new RunSetup(chain, options, run, inputs, encoding, planner, folder);
    }

    /// <summary>The same run with every number of the chain found that is set by a goal.</summary>
    /// <param name="memory">Numbers that earlier runs found; null without any.</param>
    /// <param name="progress">Told the part done of each rendering.</param>
    /// <param name="cancel">Stops it.</param>
    /// <exception cref="ChainException">A goal cannot be met.</exception>
    public RunSetup Seek(SeekMemory? memory, Action<double> progress, CancellationToken cancel)
    {
        var (chain, notes) = new Seeker(Inputs, memory, Threads, progress, cancel).Run(Chain);
        return new RunSetup(chain, Options, Run, Inputs, Encoding, new PlanBuilder(chain, Inputs, Run, Encoding, Threads), Folder) { Found = notes };
    }

    private static int ThreadsOf(PrintOptions options) => Math.Max(1, options.Threads ?? Environment.ProcessorCount);

    private static void CheckPlace(PrintRun.Excerpt excerpt, PlanBuilder planner, int rateHz)
    {
        if (excerpt.From > 0 && excerpt.From >= planner.RawEnd)
        {
            throw new UsageException(FormattableString.Invariant($"--from: the session ends at {(double)planner.RawEnd / rateHz:0.###} s."));
        }

        if (excerpt.To > planner.Cap)
        {
            throw new UsageException(FormattableString.Invariant($"--to: the session with its longest tail ends at {(double)planner.Cap / rateHz:0.###} s."));
        }
    }
}
