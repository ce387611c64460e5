using DrumPrint.Audio;

namespace DrumPrint.Chains.Reading;

/// <summary>Reads the bytes of a chain or tempo file.</summary>
internal static class SourceFile
{
    /// <exception cref="UnreadableFileException">It cannot be read; the message says why.</exception>
    public static byte[] Read(string path)
    {
        try
        {
            var bytes = File.ReadAllBytes(path);
            return Sound(bytes) is { } kind
                ? throw new UnreadableFileException(path, $"this is a sound file ({kind}); a chain file is wanted, text that names the sound files.")
                : bytes;
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

    private static string? Sound(ReadOnlySpan<byte> bytes) => bytes.StartsWith("RIFF"u8) || bytes.StartsWith("RF64"u8) || bytes.StartsWith("BW64"u8) ? "WAV" : bytes.StartsWith("FORM"u8) ? "AIFF" : null;

    private static string InFolder(string path)
    {
        var chains = Directory.GetFiles(path, "*.chain.json");
        return chains.Length == 1 ? $" Did you mean {Path.Combine(path, Path.GetFileName(chains[0]))}?" : "";
    }
}
