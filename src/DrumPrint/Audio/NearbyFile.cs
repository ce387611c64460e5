using DrumPrint.Language;

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

            string[] names = [.. Directory.EnumerateFiles(folder).Where(f => !isTaken(f)).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal)];
            return Meant(Path.GetFileName(path), names) is { } name ? $" Did you mean {name}?" : "";
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            return "";
        }
    }

    /// <summary>The only file in the folder whose name is the same with its accents written in another way; null when there is none. A link is none:
    /// whoever asked where the name leads asked of the name as it was written.</summary>
    /// <param name="path">A path that leads nowhere.</param>
    public static string? WithOtherAccents(string path)
    {
        try
        {
            var wanted = Accents.Composed(Path.GetFileName(path));
            return Path.GetDirectoryName(Path.GetFullPath(path)) is { } folder && Directory.Exists(folder)
                && Directory.EnumerateFiles(folder).Where(f => Accents.Composed(Path.GetFileName(f)) == wanted).Take(2).ToList() is [var only] && new FileInfo(only).LinkTarget is null ? only : null;
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            return null;
        }
    }

    /// <summary>The name among several that was meant; null when none comes close.</summary>
    public static string? Meant(string wanted, IReadOnlyList<string> names) => names.FirstOrDefault(n => IsButForEnding(n, wanted)) ?? Nearest.Word(wanted, names);

    // Whether an ending was forgotten, or written twice.
    private static bool IsButForEnding(string name, string wanted) =>
        string.Equals(Path.GetFileNameWithoutExtension(name), wanted, StringComparison.OrdinalIgnoreCase)
        || string.Equals(name, Path.GetFileNameWithoutExtension(wanted), StringComparison.OrdinalIgnoreCase);
}
