using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Chains.Reading;

/// <summary>Reads the bytes of a chain or tempo file.</summary>
internal static class SourceFile
{
    /// <summary>Largest chain or tempo map that is read: a chain of 20 000 buses has a quarter of it.</summary>
    public const long MostBytes = 16 << 20;

    private const int FirstBytes = 4;

    /// <param name="path">The file.</param>
    /// <param name="mostBytes">Largest that is read.</param>
    /// <exception cref="UnreadableFileException">It cannot be read; the message says why.</exception>
    public static byte[] Read(string path, long mostBytes = MostBytes)
    {
        try
        {
            using var file = RegularFile.Open(path);
            Span<byte> first = stackalloc byte[FirstBytes];
            return Sound(first[..RandomAccess.Read(file, first, 0)]) is { } kind
                ? throw new UnreadableFileException(path, $"this is a sound file ({kind}); a chain file is wanted, text that names the sound files.")
                : RegularFile.ReadAll(file, mostBytes);
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new UnreadableFileException(path, Reason(path, exception));
        }
    }

    private static string Reason(string path, Exception exception) => exception switch
    {
        _ when Directory.Exists(path) => "this is a folder, not a file." + InFolder(path),
        FileNotFoundException or DirectoryNotFoundException => "there is no such file." + NearbyFile.Hint(path),
        UnauthorizedAccessException => "this file may not be read with your rights.",
        _ => $"this file cannot be read: {FileReason.Of(exception)}.",
    };

    private static string? Sound(ReadOnlySpan<byte> bytes) => bytes.StartsWith("RIFF"u8) || bytes.StartsWith("RF64"u8) || bytes.StartsWith("BW64"u8) ? "WAV" : bytes.StartsWith("FORM"u8) ? "AIFF" : bytes.StartsWith("fLaC"u8) ? "FLAC" : null;

    private static string InFolder(string path)
    {
        var chains = Directory.GetFiles(path, "*.chain.json");
        return chains.Length == 1 ? $" Did you mean {Path.Combine(path, Path.GetFileName(chains[0]))}?" : "";
    }
}
