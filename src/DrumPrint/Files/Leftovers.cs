namespace DrumPrint.Files;

/// <summary>What killed runs left half-made in a folder.</summary>
internal static class Leftovers
{
    /// <summary>Files by a <see cref="TemporaryName"/> that no run is making. Links are none, whatever they are called; nor is anything where
    /// a journal still says what becomes of them.</summary>
    public static IReadOnlyList<string> In(string folder) => SetJournal.IsIn(folder) ? [] :
    [
        .. new DirectoryInfo(folder).EnumerateFiles(TemporaryName.Pattern)
            .Where(f => TemporaryName.Is(f.Name) && !f.Attributes.HasFlag(FileAttributes.ReparsePoint) && !IsInUse(f.FullName))
            .Select(f => f.FullName)
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>Deletes them; what cannot be deleted stays for a later run.</summary>
    public static void Clear(string folder, FileSteps steps)
    {
        foreach (var file in In(folder))
        {
            steps.TryDelete(file);
        }
    }

    /// <summary>Deletes whole folders that killed runs left half-made; the place must be locked, so no run is making one.</summary>
    public static void ClearFolders(string place, FileSteps steps)
    {
        foreach (var left in new DirectoryInfo(place).EnumerateDirectories(TemporaryName.Pattern).Where(d => TemporaryName.Is(d.Name) && !d.Attributes.HasFlag(FileAttributes.ReparsePoint)))
        {
            steps.TryDeleteFolder(left.FullName);
        }
    }

    // A run that is still making a file has it open.
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
        catch (Exception e) when (FileErrors.Are(e))
        {
            return true;
        }
    }
}
