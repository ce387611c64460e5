using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Planning;
using DrumPrint.Session;

namespace DrumPrint.Printing.Runs;

/// <summary>What stays the same however often a run tries.</summary>
internal sealed record RunSetup(
    Chain Chain,
    PrintOptions Options,
    SessionInputs Inputs,
    PrintSelection Selection,
    SampleEncoding Encoding,
    SongStretch Stretch,
    PlanBuilder Planner,
    string Folder,
    RunRecord? Record)
{
    /// <summary>Held from the first file a run writes to its ticket.</summary>
    public FolderLock Lock { get; } = new();

    /// <summary>What earlier runs kept; null to go without.</summary>
    public RunStore? Store { get; init; }

    public int Threads => Math.Max(1, Options.Threads ?? Environment.ProcessorCount);

    /// <summary>Whether the run writes a ticket: all files of the whole song, and not by an older ticket.</summary>
    public bool IsTicketed => Record is not null && Options.Settled is null && Selection.IsWhole;

    /// <summary>Which hashes are taken of raw files while they are rendered: with a store only enough to see that they are still what
    /// it hashed before.</summary>
    public AudioHashes Hashes => this switch
    {
        { Store: not null } => AudioHashes.Likeness,
        { IsTicketed: true } => AudioHashes.Samples | AudioHashes.File,
        { Record: not null } => AudioHashes.Samples,
        _ => AudioHashes.None,
    };

    /// <summary>Files whose figures a run must know.</summary>
    public IReadOnlyList<PrintTarget> Needed => [.. Selection.All.Where(t => Planner.NeedsAll || Selection.Chosen.Contains(t))];

    /// <summary>The name of a file of this run; an excerpt's says from where to where, so that two of them lie side by side.</summary>
    public string NameOf(PrintTarget target) => Record is null
        ? PrintFileName.Of(target.Number, target.Name, Chain.Song, Stretch, (Options.FromBar, Options.ToBar))
        : PrintFileName.Of(target.Number, target.Name, Chain.Song);

    public string PathOf(PrintTarget target) => Path.Combine(Folder, NameOf(target));

    public AudioFormat Format(int channels) => new(Chain.Song.RateHz, channels);
}
