using System.Text;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Planning;
using DrumPrint.Prints.Ticketing;

namespace DrumPrint.Prints.Keeping;

/// <summary>The store as one run uses it: what is known of its prints, and which of its files need no rendering.</summary>
internal sealed class RunStore
{
    private readonly PrintStore _store;
    private readonly RunRecord? _record;
    private readonly SessionInputs _inputs;
    private readonly IReadOnlyDictionary<string, FileFingerprint> _tracks;
    private readonly bool _measuresTails;
    private readonly long _cap;
    private readonly Dictionary<string, string?> _fileHashes = new(StringComparer.Ordinal);

    private RunStore(PrintStore store, RunSetup setup, IReadOnlyDictionary<string, FileFingerprint> tracks)
    {
        _store = store;
        _record = setup.Record;
        _inputs = setup.Inputs;
        _tracks = tracks;
        TrackHashes = tracks.ToDictionary(t => t.Key, t => t.Value.AudioSha256!, StringComparer.Ordinal);
        TrackFileHashes = tracks.Where(t => t.Value.FileSha256 is not null).ToDictionary(t => t.Key, t => t.Value.FileSha256!, StringComparer.Ordinal);
        Shelf = new SignalShelf(store, new SoundKeys(setup.Chain, setup.Inputs, TrackHashes), keeps: _record is not null);
        _measuresTails = setup.Planner.MeasuresTails;
        _cap = setup.Planner.Cap;
    }

    /// <summary>Hash of the samples of each raw track that is heard, by name.</summary>
    public IReadOnlyDictionary<string, string> TrackHashes { get; }

    /// <summary>Hash of the whole file of each, by name; none where the run writes no ticket.</summary>
    public IReadOnlyDictionary<string, string> TrackFileHashes { get; }

    public SignalShelf Shelf { get; }

    public IReadOnlyList<string> Notes => _store.Notes;

    /// <summary>Opens the store of a run and hashes its raw tracks.</summary>
    /// <returns>Null and why, when the store cannot be used.</returns>
    public static (RunStore? Store, string? Problem) Open(StoreOptions options, RunSetup setup, CancellationToken cancel)
    {
        var (store, problem) = PrintStore.Open(options);
        if (store is null)
        {
            return (null, problem);
        }

        var heard = Heard(setup.Chain, setup.Selection);
        var wanted = AudioHashes.Samples | AudioHashes.Likeness | (setup.IsTicketed ? AudioHashes.File : AudioHashes.None);
        var hashes = ManyFiles.Each(heard.Select(t => setup.Inputs.Tracks[t].Path), setup.Threads, p => FileHash.Of(p, wanted), cancel);
        var byName = heard.ToDictionary(t => t, t => hashes[setup.Inputs.Tracks[t].Path], StringComparer.Ordinal);
        return (new RunStore(store, setup, byName), null);
    }

    /// <summary>Raw tracks that reach any print, by name in the chain's order.</summary>
    public static IReadOnlyList<string> Heard(Chain chain, PrintSelection selection)
    {
        var heard = selection.All.SelectMany(t => ChainPart.Of(chain, t).Tracks).Select(t => t.Name).ToHashSet(StringComparer.Ordinal);
        return [.. chain.Tracks.Select(t => t.Name).Where(heard.Contains)];
    }

    /// <summary>What is known of a print; null when nothing is.</summary>
    public PrintMemo? Find(PrintTarget target, double trimDb, bool toCap) => _record is not null && _store.FindMemo(Key(target, trimDb, toCap)) is { } memo && memo.HoldsFor(_cap) ? memo : null;

    /// <summary>Takes down what an attempt found out.</summary>
    /// <param name="figures">A print of it.</param>
    /// <param name="trimDb">Its trim.</param>
    /// <param name="toCap">Its reach of tails.</param>
    /// <param name="written">The file; null when it was measured only.</param>
    public void Save(PrintFigures figures, double trimDb, bool toCap, WrittenMemo? written)
    {
        if (_record is not null)
        {
            var name = FormattableString.Invariant($"{figures.Target.Number:00} {figures.Target.Name}");
            _store.SaveMemo(Key(figures.Target, trimDb, toCap), new PrintMemo(name, figures.Channels, figures.Peak, figures.QuietFrom, figures.TailTo, _cap, figures.LatencyFrames, written));
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
    public void Check(RenderPlan plan, SongStretch stretch)
    {
        if (stretch.To is not null)
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

    private string Key(PrintTarget target, double trimDb, bool toCap)
    {
        var part = Encoding.UTF8.GetString(_record!.Part(target, 0, trimDb, TrackHashes).ToChunk().Data.Span);
        return RecordWriter.Sha256(FormattableString.Invariant($"{SoundVersion.Text}\n{_measuresTails} {toCap}\n{part}"));
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
