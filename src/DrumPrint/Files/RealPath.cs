namespace DrumPrint.Files;

/// <summary>The one name the file system has for a file or folder, however it was written.</summary>
/// <remarks>Links are followed, and letter case is that of the disk. Where the disk tells upper from lower case, two
/// names that differ in it are two places. What is not there keeps the name it was given.</remarks>
internal static class RealPath
{
    // Links that lead to links are followed so far; a circle leads nowhere.
    private const int MostLinks = 40;

    public static string Of(string path) => Of(path, MostLinks);

    private static string Of(string path, int links)
    {
        var full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(path));
        if (Path.GetDirectoryName(full) is not { } parent)
        {
            return full;
        }

        var folder = Of(parent, links);
        var named = Path.Combine(folder, NameIn(folder, Path.GetFileName(full)));
        return links > 0 && Target(named) is { } target ? Of(Path.Combine(folder, target), links - 1) : named;
    }

    private static string NameIn(string folder, string name)
    {
        var path = Path.Combine(folder, name);
        if (!Exists(path))
        {
            return name;
        }

        // Where no other case of these letters is there, the disk tells them apart or the name has none. Folders may be long lists.
        var other = OtherCase(name);
        if (other != name && !Exists(Path.Combine(folder, other)))
        {
            return name;
        }

        try
        {
            string? found = null;
            foreach (var entry in Directory.EnumerateFileSystemEntries(folder))
            {
                var there = Path.GetFileName(entry);
                if (there == name)
                {
                    return name;
                }

                found ??= string.Equals(there, name, StringComparison.OrdinalIgnoreCase) ? there : null;
            }

            return found ?? name;
        }
        catch (Exception e) when (FileErrors.Are(e))
        {
            return name; // a folder that may be passed through but not listed
        }
    }

    private static bool Exists(string path) => Path.Exists(path);

    private static string OtherCase(string name) =>
        string.Create(name.Length, name, static (to, from) =>
        {
            for (var i = 0; i < to.Length; i++)
            {
                to[i] = char.IsAsciiLetter(from[i]) ? (char)(from[i] ^ 0x20) : from[i];
            }
        });

    private static string? Target(string path)
    {
        try
        {
            return new FileInfo(path).LinkTarget;
        }
        catch (Exception e) when (FileErrors.Are(e))
        {
            return null;
        }
    }
}
