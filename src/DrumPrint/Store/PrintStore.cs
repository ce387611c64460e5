using DrumPrint.Audio;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Session;

namespace DrumPrint.Store;

/// <summary>What earlier runs of a session kept: signals of buses, and what is known of prints.</summary>
/// <remarks>Everything in it can be made again. Nothing in it is used before its hash was checked; what is damaged is dropped.
/// Files are written under a temporary name and renamed, so that runs at the same time do not meet half a file.</remarks>
internal sealed class PrintStore
{
    /// <summary>Room on the disk that the store leaves free.</summary>
    private const long SpareBytes = 1L << 30;

    private const int MostMemos = 4096;

    private readonly StoreOptions _options;
    private readonly FileSteps _steps;
    private readonly StoreSums _sums;
    private readonly Dictionary<string, SortedSet<string>> _troubles = new(StringComparer.Ordinal);

    private PrintStore(StoreOptions options, StoreSums sums, FileSteps steps, string? note)
    {
        _steps = steps;
        _options = options;
        _sums = sums;
        if (note is not null)
        {
            _troubles.Add(note, new SortedSet<string>(StringComparer.Ordinal));
        }
    }

    /// <summary>What a user should know of how the store fared, in sentences.</summary>
    public IReadOnlyList<string> Notes => [.. _troubles.Select(t => t.Key.Replace("{0}", Show.List([.. t.Value]), StringComparison.Ordinal))];

    /// <summary>Opens a store, making its folder when it is not there.</summary>
    /// <returns>The store; or null and why it cannot be used.</returns>
    public static (PrintStore? Store, string? Problem) Open(StoreOptions options, FileSteps steps)
    {
        var (access, note) = StoreAccess.OpenOrMake(options.Folder, steps);
        if (access is null)
        {
            return (null, note);
        }

        try
        {
            StoreFiles.Prepare(options.Folder, steps);
            return (new PrintStore(options, access.Sums, steps, note), null);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            return (null, $"The store {options.Folder} could not be used, so everything was rendered: {FileReason.Of(e)}.");
        }
    }

    /// <summary>What is known of a print; null when nothing is.</summary>
    public PrintMemo? FindMemo(string key)
    {
        if (_options.Anew)
        {
            return null;
        }

        var path = StoreFiles.Memo(_options.Folder, key);
        try
        {
            if (!File.Exists(path))
            {
                return null;
            }

            if (PrintMemoText.Parse(_sums, key, RegularFile.ReadAll(path, PrintMemoText.MostBytes)) is { } memo)
            {
                StoreFiles.Touch(path, _steps);
                return memo;
            }

            Drop(path, "a print");
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            // As good as not there.
        }

        return null;
    }

    /// <summary>What is known of a print, even by a run that renders everything; null when nothing is, or it is damaged.</summary>
    public PrintMemo? Remembered(string key)
    {
        try
        {
            var path = StoreFiles.Memo(_options.Folder, key);
            return File.Exists(path) ? PrintMemoText.Parse(_sums, key, RegularFile.ReadAll(path, PrintMemoText.MostBytes)) : null;
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            return null;
        }
    }

    /// <summary>Whether any print that is known, of whatever chain or build, was written with these bytes.</summary>
    public bool HasWritten(string fileSha256) => StoreFiles.Memos(_options.Folder).Any(path =>
    {
        try
        {
            return PrintMemoText.Parse(_sums, Path.GetFileNameWithoutExtension(path), RegularFile.ReadAll(path, PrintMemoText.MostBytes))?.Written?.FileSha256 == fileSha256;
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            return false;
        }
    });

    public void SaveMemo(string key, PrintMemo memo) => Save(StoreFiles.Memo(_options.Folder, key), PrintMemoText.Of(_sums, key, memo));

    private void Save(string path, byte[] bytes)
    {
        try
        {
            using var file = StagedFile.Create(path, steps: _steps);
            file.Append(bytes);
            file.Complete(flush: false);
            file.Commit();
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            CannotWrite(FileReason.Of(e));
        }
    }

    /// <summary>A number that an earlier run found; null when none did.</summary>
    public FoundNumber? FindNumber(string key)
    {
        var path = StoreFiles.Number(_options.Folder, key);
        try
        {
            if (_options.Anew || !File.Exists(path))
            {
                return null;
            }

            if (FoundNumberText.Parse(_sums, key, RegularFile.ReadAll(path, FoundNumberText.MostBytes)) is { } found)
            {
                StoreFiles.Touch(path, _steps);
                return found;
            }

            Drop(path, "a number");
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            // As good as not there.
        }

        return null;
    }

    public void SaveNumber(string key, FoundNumber found) => Save(StoreFiles.Number(_options.Folder, key), FoundNumberText.Of(_sums, key, found));

    /// <summary>Opens a kept signal; null when there is none.</summary>
    public SignalReader? FindSignal(string key)
    {
        if (_options.Anew)
        {
            return null;
        }

        var path = StoreFiles.Signal(_options.Folder, key);
        try
        {
            if (!File.Exists(path))
            {
                return null;
            }

            var reader = SignalReader.Open(path, _sums);
            if (reader.Header.Key == key)
            {
                StoreFiles.Touch(path, _steps);
                return reader;
            }

            reader.Dispose();
            Drop(path, reader.Header.Name);
        }
        catch (DamagedSignalException e)
        {
            Drop(path, e.Name);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            // As good as not there.
        }

        return null;
    }

    /// <summary>Begins to keep a signal; null when the store has no room for it.</summary>
    /// <param name="header">What it is.</param>
    /// <param name="traces">What its processors do to the gain.</param>
    /// <param name="claimedBytes">Room that the signals of this run take in the store.</param>
    /// <param name="begunBytes">Part of it that is not on the disk yet.</param>
    public SignalWriter? Begin(SignalHeader header, IReadOnlyDictionary<string, IReadOnlyList<GainTrace>> traces, long claimedBytes, long begunBytes)
    {
        var bytes = SignalLayout.BodyBytes(header.Channels, header.Frames);
        if (claimedBytes + bytes > _options.CapBytes)
        {
            Add("The store is too small to keep {0}; let it grow with --store-gb.", header.Name);
            return null;
        }

        try
        {
            if (StoreFiles.FreeBytes(_options.Folder) - begunBytes - bytes < SpareBytes)
            {
                Add("The disk is too full to keep {0} for the next run.", header.Name);
                return null;
            }

            var path = StoreFiles.Signal(_options.Folder, header.Key);
            return SignalWriter.Create(path, header, traces, _sums, _steps);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            CannotWrite(FileReason.Of(e));
            return null;
        }
    }

    /// <summary>Keeps what was written, and drops the least recently used until all fits.</summary>
    public void Commit(IEnumerable<SignalWriter> writers)
    {
        foreach (var writer in writers)
        {
            if (!writer.Commit() && writer.Failure is { } failure)
            {
                CannotWrite(failure);
            }
        }

        Evict();
    }

    /// <summary>Drops the least recently used until all fits.</summary>
    public void Evict() => StoreFiles.Evict(_options.Folder, _options.CapBytes, MostMemos, _steps);

    /// <summary>Drops an entry whose hash is wrong.</summary>
    public void Drop(string path, string name)
    {
        Add("Damaged entries of the store were dropped and rendered again: {0}.", name.Length == 0 ? "a bus" : name);
        StoreFiles.Delete(path, _steps);
    }

    /// <summary>Drops figures that a render contradicts although all that makes the print is the same.</summary>
    public void Contradict(string key, string name)
    {
        Add("Rendered again from the same chain and raw files, and not as the store remembered: {0}. What it remembered was dropped. Something else changed the store, or this machine does not compute the same twice: print once more, and report it if this comes again.", name);
        StoreFiles.Delete(StoreFiles.Memo(_options.Folder, key), _steps);
    }

    private void CannotWrite(string why) => Add("The store could not take everything up: {0}.", why);

    private void Add(string sentence, string name)
    {
        lock (_troubles)
        {
            if (!_troubles.TryGetValue(sentence, out var names))
            {
                _troubles.Add(sentence, names = new SortedSet<string>(StringComparer.Ordinal));
            }

            names.Add(name);
        }
    }
}
