using DrumPrint.Chains.Reading;

namespace DrumPrint.Audio;

/// <summary>Finds the file that was meant.</summary>
internal static class NearbyFile
{
    /// <summary>Words to end "there is no such file" with: the nearest name in the same folder, or that there is no such folder.</summary>
    /// <param name="path">A path that leads nowhere.</param>
    public static string Hint(string path) => Hint(path, _ => false);

    /// <summary>The same where some files are spoken for.</summary>
    /// <param name="path">A path that leads nowhere.</param>
    /// <param name="isTaken">Whether a file, by its full path, cannot have been meant.</param>
    public static string Hint(string path, Func<string, bool> isTaken)
    {
        try
        {
            var folder = Path.GetDirectoryName(Path.GetFullPath(path)) ?? "";
            if (!Directory.Exists(folder))
            {
                return " There is no such folder either.";
            }

            var names = Directory.EnumerateFiles(folder).Where(f => !isTaken(f)).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal);
            return Nearest.Word(Path.GetFileName(path), names) is { } name ? $" Did you mean {name}?" : "";
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            return "";
        }
    }
}
