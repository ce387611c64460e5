using DrumPrint.Files;

namespace DrumPrint.Store;

/// <summary>A link in a store leads to something that is not the store's.</summary>
internal static class StoreLinks
{
    public static bool IsLink(string path) => new FileInfo(path).LinkTarget is not null || new FileInfo(path) is { Exists: true } file && file.Attributes.HasFlag(FileAttributes.ReparsePoint);

    /// <summary>The link that stands where a store or a folder of it should be; null when there is none.</summary>
    public static string? In(string folder) => new[] { folder }.Concat(StoreFiles.Folders.Select(name => Path.Combine(folder, name))).FirstOrDefault(IsLink);

    /// <summary>What is told of it.</summary>
    public static string Trouble(string link) => $"{link} is a link. A store that came with a link in it could have files deleted that are not its own, so it is not used";

    /// <exception cref="UsageException">There is a link.</exception>
    public static void Refuse(string folder)
    {
        if (In(folder) is { } link)
        {
            throw new UsageException($"{Trouble(link)}. Remove the link; the next print makes a store of its own.");
        }
    }
}
