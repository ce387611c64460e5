namespace DrumPrint.Files;

/// <summary>Tells files that this program wrote, prints and tickets, from those of others.</summary>
internal static class OwnFile
{
    private const int FirstBytes = 4096;

    /// <summary>Whether the first bytes of a file name DrumPrint as its maker, as those of a print do, or begin as a ticket does.</summary>
    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static bool Is(string path)
    {
        using var file = RegularFile.Open(path, FileShare.ReadWrite | FileShare.Delete);
        var bytes = new byte[FirstBytes];
        var first = bytes.AsSpan(0, RandomAccess.Read(file, bytes, 0));
        return first.IndexOf("DrumPrint"u8) >= 0 || (first.StartsWith("{"u8) && first.IndexOf("\"ticket\":"u8) >= 0);
    }
}
