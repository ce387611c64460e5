namespace DrumPrint.Files;

/// <summary>Tells files that this program wrote, prints and tickets, from those of others.</summary>
/// <remarks>Only the first bytes are looked at, so that a damaged print is known too.</remarks>
internal static class OwnFile
{
    private const int FirstBytes = 4096;

    /// <summary>Who made a print, as it stands in it.</summary>
    public static ReadOnlySpan<byte> Maker => "DrumPrint"u8;

    /// <summary>Whether a file is empty, or names DrumPrint as its maker.</summary>
    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static bool IsEmptyOrPrint(string path) => First(path) is var first && (first.Length == 0 || IsPrint(first));

    /// <summary>Whether a file is a print or a ticket.</summary>
    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static bool IsPrintOrTicket(string path) => First(path) is var first && (IsPrint(first) || (first.AsSpan().StartsWith("{"u8) && first.AsSpan().IndexOf("\"ticket\":"u8) >= 0));

    private static bool IsPrint(byte[] first) => first.AsSpan().IndexOf(Maker) >= 0;

    private static byte[] First(string path)
    {
        using var file = RegularFile.Open(path, FileShare.ReadWrite | FileShare.Delete);
        var bytes = new byte[FirstBytes];
        return bytes[..RandomAccess.Read(file, bytes, 0)];
    }
}
