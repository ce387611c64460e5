namespace DrumPrint.Chains.Reading;

/// <summary>Reads the bytes of a chain or tempo file.</summary>
internal static class SourceFile
{
    /// <exception cref="UnreadableFileException">It cannot be read; the message says why.</exception>
    public static byte[] Read(string path)
    {
        try
        {
            return File.ReadAllBytes(path);
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new UnreadableFileException(path, Reason(path, exception));
        }
    }

    private static string Reason(string path, Exception exception) => exception switch
    {
        _ when Directory.Exists(path) => "this is a folder, not a file.",
        FileNotFoundException or DirectoryNotFoundException => "there is no such file.",
        UnauthorizedAccessException => "this file may not be read with your rights.",
        _ => $"this file cannot be read ({exception.Message})",
    };
}
