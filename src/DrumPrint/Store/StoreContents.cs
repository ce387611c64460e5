using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Store;

/// <summary>Looks into a store from outside a run.</summary>
public static class StoreContents
{
    /// <summary>Everything a store holds: signals by name, then prints by name; nothing when there is no store.</summary>
    /// <exception cref="UsageException">What is there was not made by this user's DrumPrint, or a link leads there.</exception>
    public static IReadOnlyList<StoreEntry> List(string folder) =>
    StoreAccess.Find(folder) is not { } store ? [] :
    [
        .. StoreFiles.Entries(folder).Select(f => Look(f, store.Sums)).OfType<StoreEntry>().OrderBy(e => e.Kind).ThenBy(e => e.Name, StringComparer.Ordinal).ThenBy(e => e.Key, StringComparer.Ordinal),
    ];

    /// <summary>Files in a store that belong to no entry, by path.</summary>
    public static IReadOnlyList<StoreLeftover> Leftovers(string folder) =>
        [.. StoreFiles.Leftovers(folder).Select(f => new StoreLeftover(Path.GetRelativePath(folder, f), Length(f)))];

    /// <summary>Holds every entry against its sums and drops what is damaged.</summary>
    /// <exception cref="UsageException">What is there was not made by this user's DrumPrint, or a link leads there.</exception>
    public static StoreCheck Verify(string folder, CancellationToken cancel = default)
    {
        var whole = 0;
        var dropped = new List<StoreEntry>();
        if (StoreAccess.Find(folder) is not { } store)
        {
            return new StoreCheck(0, []);
        }

        foreach (var path in StoreFiles.Entries(folder).ToList())
        {
            cancel.ThrowIfCancellationRequested();
            if (Look(path, store.Sums) is not { } entry)
            {
                continue;
            }

            if (entry.Kind != StoreEntryKind.Damaged && IsWhole(path, store.Sums))
            {
                whole++;
            }
            else
            {
                StoreFiles.Delete(path, FileSteps.Plain);
                dropped.Add(entry);
            }
        }

        return new StoreCheck(whole, dropped);
    }

    /// <summary>Drops every entry, and what killed runs left. Files of other names stay.</summary>
    /// <returns>How many files, and how many bytes that frees.</returns>
    /// <exception cref="UsageException">What is there was not made by this user's DrumPrint, or a link leads there.</exception>
    public static (int Files, long Bytes) Clear(string folder)
    {
        var files = 0;
        var bytes = 0L;
        if (StoreAccess.Find(folder) is null)
        {
            return (0, 0);
        }

        foreach (var path in StoreFiles.Entries(folder).Concat(StoreFiles.OwnLeftovers(folder)).ToList())
        {
            var length = Length(path);
            if (StoreFiles.Delete(path, FileSteps.Plain))
            {
                files++;
                bytes += length;
            }
        }

        return (files, bytes);
    }

    // Null when another run has dropped it meanwhile.
    private static StoreEntry? Look(string path, StoreSums sums)
    {
        var key = Path.GetFileNameWithoutExtension(path);
        try
        {
            if (StoreFiles.IsSignal(path))
            {
                using var reader = SignalReader.Open(path, sums);
                var header = reader.Header;
                return header.Key == key
                    ? new StoreEntry(StoreEntryKind.Signal, key, header.Name, header.Channels, header.Frames, Length(path))
                    : new StoreEntry(StoreEntryKind.Damaged, key, header.Name, 0, 0, Length(path));
            }

            if (StoreFiles.IsNumber(path))
            {
                return FoundNumberText.Parse(sums, key, RegularFile.ReadAll(path, FoundNumberText.MostBytes)) is { } found
                    ? new StoreEntry(StoreEntryKind.Number, key, FormattableString.Invariant($"{found.Number:0.0}, which {found.Words}"), 0, 0, Length(path))
                    : new StoreEntry(StoreEntryKind.Damaged, key, "a number", 0, 0, Length(path));
            }

            return PrintMemoText.Parse(sums, key, RegularFile.ReadAll(path, PrintMemoText.MostBytes)) is { } memo
                ? new StoreEntry(StoreEntryKind.Print, key, memo.Name, memo.Channels, memo.Written?.Frames ?? 0, Length(path))
                : new StoreEntry(StoreEntryKind.Damaged, key, "a print", 0, 0, Length(path));
        }
        catch (DamagedSignalException)
        {
            return new StoreEntry(StoreEntryKind.Damaged, key, "a signal", 0, 0, Length(path));
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            return null;
        }
    }

    private static bool IsWhole(string path, StoreSums sums)
    {
        if (!StoreFiles.IsSignal(path))
        {
            return true; // looked at whole already
        }

        try
        {
            using var reader = SignalReader.Open(path, sums);
            reader.CheckAll();
            return true;
        }
        catch (Exception e) when (e is DamagedSignalException || FileTrouble.IsFileTrouble(e))
        {
            return false;
        }
    }

    private static long Length(string path)
    {
        var file = new FileInfo(path);
        return file.Exists ? file.Length : 0;
    }
}

/// <summary>One thing a store holds.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Key">Hash of everything that makes it.</param>
/// <param name="Name">The bus or print it is for.</param>
/// <param name="Channels">1 or 2; 0 when not known.</param>
/// <param name="Frames">Length; 0 when not known.</param>
/// <param name="Bytes">Room it takes.</param>
public sealed record StoreEntry(StoreEntryKind Kind, string Key, string Name, int Channels, long Frames, long Bytes);

/// <summary>A file in a store that belongs to no entry.</summary>
/// <param name="Place">Where it is in the store.</param>
/// <param name="Bytes">Room it takes.</param>
public sealed record StoreLeftover(string Place, long Bytes);

/// <summary>Kinds of things a store holds.</summary>
public enum StoreEntryKind
{
    /// <summary>The signal of a bus.</summary>
    Signal,

    /// <summary>What is known of a print.</summary>
    Print,

    /// <summary>A number that was found for a goal.</summary>
    Number,

    /// <summary>Something whose hash is wrong.</summary>
    Damaged,
}

/// <summary>What checking a store has shown.</summary>
/// <param name="Whole">Entries that are as they were written.</param>
/// <param name="Dropped">Entries that were not, and are gone.</param>
public sealed record StoreCheck(int Whole, IReadOnlyList<StoreEntry> Dropped);
