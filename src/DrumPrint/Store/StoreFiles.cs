using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Store;

/// <summary>The files of a store.</summary>
internal static class StoreFiles
{
    private const string SignalEnd = ".signal";
    private const string MemoEnd = ".print";
    private const string NumberEnd = ".found";

    // A key is a SHA-256 in hexadecimal.
    private const int KeyDigits = 64;

    /// <summary>Names of the folders in a store.</summary>
    public static readonly string[] Folders = ["signals", "prints"];

    // A folder that a link leads to lies elsewhere, and nothing of it is the store's.
    private static readonly EnumerationOptions Everywhere = new() { RecurseSubdirectories = true, MaxRecursionDepth = 4, AttributesToSkip = FileAttributes.ReparsePoint, IgnoreInaccessible = true };

    // The mark that backup programs know a folder of remakeable things by (Cache Directory Tagging Specification).
    public const string TagName = "CACHEDIR.TAG";
    private const string Tag = """
        Signature: 8a477f597d28d172789f06886806bc55
        # What DrumPrint keeps so that the next print renders only what changed. It may be deleted at any time.

        """;

    public static string Signal(string folder, string key) => Path.Combine(folder, "signals", key + SignalEnd);

    public static string Memo(string folder, string key) => Path.Combine(folder, "prints", key + MemoEnd);

    public static string Number(string folder, string key) => Path.Combine(folder, "prints", key + NumberEnd);

    public static bool IsNumber(string path) => path.EndsWith(NumberEnd, StringComparison.Ordinal);

    public static bool IsSignal(string path) => path.EndsWith(SignalEnd, StringComparison.Ordinal);

    /// <summary>Makes the folders, proves that they can be written to, and clears away what a killed run left.</summary>
    /// <exception cref="IOException">They cannot be made or written to.</exception>
    /// <exception cref="UnauthorizedAccessException">They may not be written to.</exception>
    public static void Prepare(string folder, FileSteps steps)
    {
        steps.MakeFolder(Path.Combine(folder, "signals"));
        steps.MakeFolder(Path.Combine(folder, "prints"));
        foreach (var name in Folders.Prepend(""))
        {
            Files.Leftovers.Clear(Path.Combine(folder, name), steps);
        }

        var tag = Path.Combine(folder, TagName);
        if (!File.Exists(tag))
        {
            StagedFile.Write(tag, Tag.ReplaceLineEndings("\n"), steps: steps);
        }

        StagedFile.Create(Path.Combine(folder, "probe"), steps: steps).Dispose();
    }

    /// <summary>Whole entries: files of the store's own naming, and no links.</summary>
    public static IEnumerable<string> Entries(string folder) => All(folder).Where(f => IsEntry(Path.GetFileName(f)) && !StoreLinks.IsLink(f));

    /// <summary>What is known of prints.</summary>
    public static IEnumerable<string> Memos(string folder) => Entries(folder).Where(f => f.EndsWith(MemoEnd, StringComparison.Ordinal));

    /// <summary>Everything in a store's two folders; nothing when there is no store.</summary>
    public static IEnumerable<string> All(string folder) => Folders
        .Select(name => Path.Combine(folder, name))
        .Where(f => Directory.Exists(f) && !StoreLinks.IsLink(f))
        .SelectMany(Directory.EnumerateFiles)
        .Order(StringComparer.Ordinal);

    /// <summary>Files anywhere in a store that are no entries: what killed runs left, and whatever else came there. What a run is
    /// still writing is none of them.</summary>
    public static IEnumerable<string> Leftovers(string folder)
    {
        if (!Directory.Exists(folder))
        {
            return [];
        }

        var known = Entries(folder).Append(Path.Combine(folder, TagName)).Append(Path.Combine(folder, StoreMark.FileName)).ToHashSet(StringComparer.Ordinal);
        return Directory.EnumerateFiles(folder, "*", Everywhere)
            .Where(f => !known.Contains(f) && !IsInUse(f))
            .Order(StringComparer.Ordinal);
    }

    /// <summary>Those of them that killed runs left: by their names the store's own, in its own folders, and no links. Nothing else is ever
    /// deleted.</summary>
    public static IEnumerable<string> OwnLeftovers(string folder) => Folders.Select(name => Path.Combine(folder, name)).Prepend(folder)
        .Where(f => Directory.Exists(f) && !StoreLinks.IsLink(f))
        .SelectMany(Files.Leftovers.In);

    public static long FreeBytes(string folder) => new DriveInfo(Path.GetFullPath(folder)).AvailableFreeSpace;

    /// <summary>Takes down that an entry was used.</summary>
    public static void Touch(string path, FileSteps steps)
    {
        try
        {
#pragma warning disable RS0030 // The time orders what is dropped first; no byte of a print depends on it.
            steps.Do("set a time", () => File.SetLastWriteTimeUtc(path, DateTime.UtcNow));
#pragma warning restore RS0030
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            // It may then go sooner.
        }
    }

    public static void Evict(string folder, long capBytes, int mostMemos, FileSteps steps)
    {
        var files = Entries(folder).Select(f => new FileInfo(f)).Where(f => f.Exists).OrderByDescending(f => f.LastWriteTimeUtc).ThenBy(f => f.FullName, StringComparer.Ordinal).ToList();
        var bytes = 0L;
        var memos = 0;
        foreach (var file in files)
        {
            // Memos are small and prove whole prints: they never go to make room for signals.
            var isMemo = !IsSignal(file.Name);
            if (isMemo ? memos < mostMemos : bytes + file.Length <= capBytes)
            {
                memos += isMemo ? 1 : 0;
                bytes += isMemo ? 0 : file.Length;
            }
            else
            {
                Delete(file.FullName, steps);
            }
        }
    }

    public static bool Delete(string path, FileSteps steps)
    {
        try
        {
            steps.Delete(path);
            return true;
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            // Another run is reading it.
            return false;
        }
    }

    private static bool IsEntry(string name) => IsEntry(name, SignalEnd) || IsEntry(name, MemoEnd) || IsEntry(name, NumberEnd);

    private static bool IsEntry(string name, string end) => name.Length == KeyDigits + end.Length && name.EndsWith(end, StringComparison.Ordinal) && name.Take(KeyDigits).All(char.IsAsciiHexDigitLower);

    // A run that still writes a file has it to itself.
    private static bool IsInUse(string path)
    {
        try
        {
            RegularFile.Check(path);
            using var file = File.OpenHandle(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None);
            return false;
        }
        catch (UnauthorizedAccessException)
        {
            return false;
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            return true;
        }
    }
}
