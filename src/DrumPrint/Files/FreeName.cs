namespace DrumPrint.Files;

/// <summary>Names for files that must not replace any.</summary>
internal static class FreeName
{
    /// <summary>A name in a folder, or the first that is free with a number behind it.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="name">The name.</param>
    /// <param name="taken">Names that are spoken for.</param>
    public static string In(string folder, string name, IReadOnlySet<string>? taken = null)
    {
        var path = Path.Combine(folder, name);
        for (var n = 2; Path.Exists(path) || taken?.Contains(Path.GetFileName(path)) == true; n++)
        {
            path = Path.Combine(folder, FormattableString.Invariant($"{Path.GetFileNameWithoutExtension(name)}_{n}{Path.GetExtension(name)}"));
        }

        return path;
    }
}
