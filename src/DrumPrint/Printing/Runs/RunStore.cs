using System.Text;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Writing;
using DrumPrint.Planning;
using DrumPrint.Seeking;
using DrumPrint.Session;
using DrumPrint.Store;

namespace DrumPrint.Printing.Runs;

/// <summary>The store as one run uses it: what is known of its prints, and which of its files need no rendering.</summary>
internal sealed class RunStore
{
    private readonly PrintStore _store;
    private readonly RunRecord _record;
    private readonly bool _keepsFigures;
    private readonly SessionInputs _inputs;
    private readonly IReadOnlyDictionary<string, FileFingerprint> _tracks;
    private readonly bool _measuresTails;
    private readonly long _cap;
    private readonly HashSet<string> _contradicted = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string?> _fileHashes = new(StringComparer.Ordinal);

    private RunStore(PrintStore store, RunSetup setup, IReadOnlyDictionary<string, FileFingerprint> tracks)
    {
        _store = store;
        _record = setup.Record;
        _keepsFigures = setup.Run.IsOfWholeSong;
        _inputs = setup.Inputs;
        _tracks = tracks;
        TrackHashes = tracks.ToDictionary(t => t.Key, t => t.Value.AudioSha256!, StringComparer.Ordinal);
        TrackFileHashes = tracks.Where(t => t.Value.FileSha256 is not null).ToDictionary(t => t.Key, t => t.Value.FileSha256!, StringComparer.Ordinal);
        Shelf = new SignalShelf(store, new SoundKeys(setup.Chain, setup.Inputs, TrackHashes), keeps: _keepsFigures);
        _measuresTails = setup.Planner.MeasuresTails;
        _cap = setup.Planner.Cap;
    }

    /// <summary>Hash of the samples of each raw track that is heard, by name.</summary>
    public IReadOnlyDictionary<string, string> TrackHashes { get; }

    /// <summary>Hash of the whole file of each, by name; none where the run writes no ticket.</summary>
    public IReadOnlyDictionary<string, string> TrackFileHashes { get; }

    public SignalShelf Shelf { get; }

    /// <summary>Numbers that earlier runs found.</summary>
    public SeekMemory Numbers => new(_store, _inputs, TrackHashes);

    /// <summary>The same store for a run whose numbers have been found.</summary>
    public RunStore For(RunSetup setup) => new(_store, setup, _tracks);

    public IReadOnlyList<string> Notes => _store.Notes;

    /// <summary>Opens the store of a run and hashes its raw tracks.</summary>
    /// <returns>Null and why, when the store cannot be used.</returns>
    public static (RunStore? Store, string? Problem) Open(StoreOptions options, RunSetup setup, CancellationToken cancel)
    {
        var (store, problem) = PrintStore.Open(options, setup.Steps);
        if (store is null)
        {
            return (null, problem);
        }

        var heard = Heard(setup.Chain, setup.Selection);
        var wanted = AudioHashes.Samples | AudioHashes.Likeness | (setup.Run.WritesTicket ? AudioHashes.File : AudioHashes.None);
        var hashes = ManyFiles.Each(heard.SelectMany(t => setup.Inputs.Tracks[t].Paths), setup.Threads, p => FileHash.Of(p, wanted, cancel), cancel);
        var byName = heard.ToDictionary(t => t, t => PieceHashes.Of([.. setup.Inputs.Tracks[t].Paths.Select(p => hashes[p])]), StringComparer.Ordinal);
        return (new RunStore(store, setup, byName), null);
    }

    /// <summary>Raw tracks that reach any print, by name in the chain's order.</summary>
    public static IReadOnlyList<string> Heard(Chain chain, PrintSelection selection)
    {
        var heard = selection.All.SelectMany(t => ChainPart.Of(chain, t).Tracks).Select(t => t.Name).ToHashSet(StringComparer.Ordinal);
        return [.. chain.Tracks.Select(t => t.Name).Where(heard.Contains)];
    }

    /// <summary>What is known of a print; null when nothing is.</summary>
    public PrintMemo? Find(PrintTarget target, double trimDb, bool toCap) =>
        _keepsFigures && Key(target, trimDb, toCap) is var key && !_contradicted.Contains(key) && _store.FindMemo(key) is { } memo && memo.HoldsFor(_cap) ? memo : null;

    /// <summary>Whether a render found out what is known of its print. What it contradicts is dropped, and not known any more.</summary>
    /// <param name="figures">A print that was rendered although figures of it were known.</param>
    /// <param name="memo">Those.</param>
    /// <param name="trimDb">Its trim.</param>
    /// <param name="toCap">Its reach of tails.</param>
    public bool Confirms(PrintFigures figures, PrintMemo memo, double trimDb, bool toCap)
    {
        var agrees = memo.AgreesWith(Memo(figures, null));
        if (!agrees)
        {
            Contradict(Key(figures.Target, trimDb, toCap), memo.Name);
        }

        return agrees;
    }

    /// <summary>Takes down what an attempt found out; what is there already and says otherwise is dropped instead.</summary>
    /// <param name="figures">A print of it.</param>
    /// <param name="trimDb">Its trim.</param>
    /// <param name="toCap">Its reach of tails.</param>
    /// <param name="written">The file; null when it was measured only.</param>
    public void Save(PrintFigures figures, double trimDb, bool toCap, WrittenMemo? written)
    {
        if (!_keepsFigures)
        {
            return;
        }

        var key = Key(figures.Target, trimDb, toCap);
        var memo = Memo(figures, written);
        if (_store.Remembered(key) is { } before && before.HoldsFor(_cap) && !before.AgreesWith(memo))
        {
            Contradict(key, memo.Name);
        }
        else
        {
            _store.SaveMemo(key, memo);
        }
    }

    public void Evict() => _store.Evict();

    /// <summary>Whether a file is, to the last byte, what an earlier run wrote.</summary>
    public bool IsWhole(string path, WrittenMemo written)
    {
        if (!_fileHashes.TryGetValue(path, out var hash))
        {
            hash = HashOf(path);
            _fileHashes.Add(path, hash);
        }

        return hash == written.FileSha256;
    }

    /// <summary>Whether an earlier run is known to have written a file of these bytes.</summary>
    public bool HasWritten(string fileSha256) => _store.HasWritten(fileSha256);

    /// <summary>Hashes files ahead of need, several at a time.</summary>
    public void HashAhead(IEnumerable<string> paths, int threads, CancellationToken cancel)
    {
        foreach (var (path, hash) in ManyFiles.Each(paths.Where(p => !_fileHashes.ContainsKey(p)), threads, p => HashOf(p) ?? "", cancel))
        {
            _fileHashes[path] = hash;
        }
    }

    /// <summary>Leaves a damaged signal aside and drops it.</summary>
    public void Leave(RenderPlan plan, DamagedSignalException damage)
    {
        foreach (var reader in plan.Kept.Where(k => damage.Path.EndsWith(Path.GetFileName(StoreFiles.Signal("", k.Header.Key)), StringComparison.Ordinal)))
        {
            Shelf.Leave(reader.Header.Key);
        }

        _store.Drop(damage.Path, damage.Name);
    }

    /// <summary>Makes sure that the raw tracks a plan has read are those whose hashes were taken before.</summary>
    /// <exception cref="AudioFileException">One changed meanwhile.</exception>
    public void Check(RenderPlan plan, PrintRun run)
    {
        if (run.To is not null)
        {
            return; // read in part only; nothing is kept of it
        }

        foreach (var (name, source) in plan.Sources)
        {
            if (source.Likeness != _tracks[name].Likeness)
            {
                throw new AudioFileException(_inputs.Tracks[name].Path, "the file was changed while it was being printed.");
            }
        }
    }

    private void Contradict(string key, string name)
    {
        _contradicted.Add(key);
        _store.Contradict(key, name);
    }

    private PrintMemo Memo(PrintFigures figures, WrittenMemo? written) => new(
        FormattableString.Invariant($"{figures.Target.Number:00} {figures.Target.Name}"),
        figures.Channels,
        figures.Peak,
        figures.QuietFrom,
        figures.TailTo,
        _cap,
        figures.LatencyFrames,
        written)
    {
        TruePeakDb = figures.TruePeakDb,
    };

    private string Key(PrintTarget target, double trimDb, bool toCap)
    {
        var part = Encoding.UTF8.GetString(_record.Part(target, 0, trimDb, TrackHashes).ToChunk().Data.Span);
        return CanonicalHash.Of(FormattableString.Invariant($"{SoundVersion.Text}\n{_measuresTails} {toCap}\n{part}"));
    }

    private static string? HashOf(string path)
    {
        try
        {
            return File.Exists(path) ? FileHash.Sha256(path) : null;
        }
        catch (AudioFileException)
        {
            return null;
        }
    }
}
