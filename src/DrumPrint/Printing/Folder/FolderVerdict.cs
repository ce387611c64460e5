using DrumPrint.Audio;
using DrumPrint.Printing.Runs;

namespace DrumPrint.Printing.Folder;

/// <summary>What lies under the names of a run's new files, decided once for each before they take them.</summary>
internal sealed class FolderVerdict
{
    private readonly IReadOnlyDictionary<int, FileVerdict> _files;

    private FolderVerdict(IReadOnlyDictionary<int, FileVerdict> files, EarlierTickets tickets, bool isGoingBack)
    {
        _files = files;
        Tickets = tickets;
        IsGoingBack = isGoingBack;
    }

    /// <summary>The tickets that lie there.</summary>
    public EarlierTickets Tickets { get; }

    /// <summary>Whether the chain goes back to a version that was handed out: then every print of it is kept.</summary>
    public bool IsGoingBack { get; }

    /// <summary>All of them, by number.</summary>
    public IEnumerable<FileVerdict> Files => _files.Values.OrderBy(f => f.Print.Target.Number);

    /// <summary>Those that are moved out of the way of a new print instead of being replaced.</summary>
    public IEnumerable<FileVerdict> Kept => Files.Where(Keeps);

    /// <summary>Decides.</summary>
    /// <param name="setup">The run.</param>
    /// <param name="set">Its new files.</param>
    /// <param name="cancel">Stops it.</param>
    /// <exception cref="AudioFileException">A file cannot be read.</exception>
    public static FolderVerdict Of(RunSetup setup, RenderedSet set, CancellationToken cancel)
    {
        InputGuard.Check(Path.Combine(setup.Folder, ChangedPrints.FolderName), isChosen: false, setup.Inputs);
        var tickets = new EarlierTickets(setup.Folder, setup.Chain.Song);
        var judge = new FileJudge(setup, set, setup.Run.IsOfWholeSong ? tickets.Current : null);
        var prints = set.New.ToDictionary(f => setup.PathOf(f.Target), StringComparer.Ordinal);
        var files = ManyFiles.Each(prints.Keys, setup.Threads, path => judge.Of(prints[path]), cancel);
        return new FolderVerdict(files.Values.ToDictionary(f => f.Print.Target.Number), tickets, ReturnToVersion.Of(setup.Chain, setup.Options) is not null);
    }

    /// <summary>What lies under the name of a new print.</summary>
    /// <param name="number">Its number.</param>
    public FileVerdict Of(int number) => _files[number];

    /// <summary>Whether a file is moved out of the way instead of being replaced.</summary>
    public bool Keeps(FileVerdict file) => file.MayBeChanged || (IsGoingBack && file.State is not (FileState.Absent or FileState.Same));
}
