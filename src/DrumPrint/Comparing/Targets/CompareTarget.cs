using DrumPrint.Tickets;

namespace DrumPrint.Comparing.Targets;

/// <summary>What kind of thing a path names.</summary>
internal enum TargetKind
{
    Chain,
    Folder,
    File,
}

/// <summary>Tells what kind of thing a path names.</summary>
internal static class CompareTarget
{
    /// <exception cref="UsageException">There is nothing there.</exception>
    public static TargetKind KindOf(string path)
    {
        if (Directory.Exists(path))
        {
            return TargetKind.Folder;
        }

        if (!File.Exists(path))
        {
            throw new UsageException($"{path}: there is no such file or folder.");
        }

        return path.EndsWith(TicketFiles.End, StringComparison.OrdinalIgnoreCase) ? TargetKind.Folder
            : path.EndsWith(".json", StringComparison.OrdinalIgnoreCase) || path.EndsWith(".jsonc", StringComparison.OrdinalIgnoreCase) ? TargetKind.Chain
            : TargetKind.File;
    }

    public static string Words(TargetKind kind) => kind switch
    {
        TargetKind.Chain => "a chain",
        TargetKind.Folder => "a folder of prints",
        _ => "a sound file",
    };

    /// <summary>Names that tell two paths apart.</summary>
    public static (string A, string B) Names(string a, string b)
    {
        var (partsA, partsB) = (Parts(a), Parts(b));
        for (var count = 1; count <= Math.Max(partsA.Length, partsB.Length); count++)
        {
            var (nameA, nameB) = (Last(partsA, count), Last(partsB, count));
            if (!string.Equals(nameA, nameB, StringComparison.OrdinalIgnoreCase))
            {
                return (nameA, nameB);
            }
        }

        return (partsA[^1], partsB[^1]);
    }

    private static string[] Parts(string path) =>
        Path.GetFullPath(path).Replace('\\', '/').Split('/', StringSplitOptions.RemoveEmptyEntries);

    private static string Last(string[] parts, int count) => string.Join('/', parts[^Math.Min(count, parts.Length)..]);
}
