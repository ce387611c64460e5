namespace DrumPrint.Files;

/// <summary>Brings the names in a folder to the disk: without that, a renamed file may go by its old name after a loss of power.</summary>
/// <remarks>Linux and macOS. Windows takes down names by itself and has no call for it.</remarks>
internal static class FolderEntries
{
    /// <summary>Brings the entries of a folder to the disk, where the system can.</summary>
    public static void Flush(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        using var handle = NativeFiles.OpenFolder(Path.GetFullPath(folder));
        if (handle.IsInvalid)
        {
            return; // a folder that may be written to but not read
        }

        try
        {
            RandomAccess.FlushToDisk(handle);
        }
        catch (Exception e) when (FileErrors.Are(e))
        {
            // The names are there; a disk that cannot promise more does not undo them.
        }
    }

    /// <summary>Does so for the folder a file lies in.</summary>
    public static void FlushOf(string path) => Flush(Path.GetDirectoryName(Path.GetFullPath(path))!);
}
