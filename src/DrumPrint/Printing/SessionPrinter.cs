using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Printing.Folder;
using DrumPrint.Printing.Reports;
using DrumPrint.Printing.Runs;
using DrumPrint.Printing.Steps;
using DrumPrint.Rendering;
using DrumPrint.Seeking;
using DrumPrint.Session;

namespace DrumPrint.Printing;

/// <summary>Prints a session: reads the raw tracks, renders every bus, writes the files.</summary>
public sealed class SessionPrinter
{
    private readonly RunSetup _setup;
    private readonly IProgress<PrintProgress>? _progress;
    private readonly CancellationToken _cancel;
    private readonly RunStore? _store;
    private readonly string? _storeProblem;
    private IReadOnlyList<string> _recovered = [];

    private SessionPrinter(Chain chain, PrintOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        _progress = progress;
        _cancel = cancel;
        _setup = RunSetup.Of(chain, options);
        var mustSeek = Seeker.IsNeeded(chain);

        // What an excerpt sounds like must not depend on what is kept, and to hash all raw tracks takes longer than the excerpt.
        if (options.Store is { } store && !_setup.Run.IsSettled && (mustSeek || !_setup.Run.BeginsLate))
        {
            progress?.Report(new PrintProgress("Looking at what is there", 0));
            (var opened, _storeProblem) = RunStore.Open(store, _setup, cancel);
            _setup = _setup with { Store = opened };
        }

        _store = _setup.Store;
        if (mustSeek)
        {
            _setup = _setup.Seek(_store?.Numbers, part => progress?.Report(new PrintProgress("Finding what the chain asks for", part)), cancel);
            _setup = _setup with { Store = _setup.Run.BeginsLate ? null : _store?.For(_setup) };
        }
    }

    /// <summary>Prints a session.</summary>
    /// <param name="chain">A checked chain.</param>
    /// <param name="options">What differs from the chain.</param>
    /// <param name="progress">Told how far it is, from any thread.</param>
    /// <param name="cancel">Stops the run; nothing is left half-written.</param>
    /// <exception cref="ChainException">Settings that are each in range do not go together.</exception>
    /// <exception cref="InputException">Raw tracks or impulses are missing or do not fit.</exception>
    /// <exception cref="AudioFileException">A file cannot be written, or a raw track is damaged.</exception>
    /// <exception cref="OverloadException">A print would go above 0 dBFS and the chain does not say what to do then.</exception>
    /// <exception cref="UsageException">The options do not fit the chain.</exception>
    /// <exception cref="OperationCanceledException">The run was stopped.</exception>
    public static PrintReport Print(Chain chain, PrintOptions options, IProgress<PrintProgress>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(chain);
        ArgumentNullException.ThrowIfNull(options);
        return new SessionPrinter(chain, options, progress, cancel).Print();
    }

    private PrintReport Print()
    {
        using var held = _setup.Lock;
        _recovered = Recover.Folder(_setup);
        while (true)
        {
            if (TryPrint() is { } report)
            {
                return report;
            }
        }
    }

    // Null when figures that were remembered turned out to be wrong: they are forgotten then, and the run begins anew.
    private PrintReport? TryPrint()
    {
        using var attempt = new Measure(_setup, _progress, _cancel).Run();
        var length = Settle.Of(_setup, attempt);
        if (new Render(_setup, attempt, length, _cancel).Run() is not { } set)
        {
            return null;
        }

        var verdict = FolderVerdict.Of(_setup, set, _cancel);
        var publish = new Publish(_setup, set, verdict);
        var isNothingNew = publish.IsNothingNew;
        var prints = Told(set, verdict);
        var standing = StandingFindings.Of(_setup, set.Account, verdict.Tickets.Current);
        var notes = FolderNotes.Of(_setup, set, verdict, isNothingNew);
        if (!isNothingNew)
        {
            publish.Run();
        }

        Remember.All(_setup, attempt, set.Account);
        var account = set.Account;
        return new PrintReport(
            _setup.Chain,
            _setup.Folder,
            _setup.Encoding,
            _setup.Run.From,
            account.Frames,
            account.TrimDb,
            prints,
            account.NullPeakDbfs,
            account.Notes,
            [.. account.Findings, .. standing.Elsewhere])
        {
            AddsUp = account.NullPeakDbfs is { } left ? left <= RunFindings.NullBoundDb(_setup, prints) : null,
            Profile = _setup.Options.Profiles ? RunProfile.Of([.. attempt.Plans.SelectMany(p => p.Nodes)]) : null,
            LookedForChanges = _setup.LooksForChanges,
            FolderNotes = [.. _recovered, .. notes.All],
            Losses = [.. _recovered.Skip(1), .. notes.Losses],
            Lowered = isNothingNew ? null : RunFindings.Lowered(account.TrimDb),
            StandingFindings = [.. standing.Here, .. standing.Elsewhere],
            StoreNotes = [.. _storeProblem is { } problem ? [problem] : (IEnumerable<string>)(_store?.Notes ?? [])],
        };
    }

    // With what is told of each beside the files that were there.
    private IReadOnlyList<PrintedFile> Told(RenderedSet set, FolderVerdict verdict)
    {
        var prints = _setup.Run.EndsTicket ? EarlierSounds.Beside(_setup, verdict.Tickets, set.Account) : set.Account.Prints;
        return !_setup.LooksForChanges
            ? prints
            : [.. prints.Select(p => p.IsUnchanged ? p : p with { Because = StaleReasons.Of(_setup, set, verdict.Of(p.Number)) })];
    }
}
