using DrumPrint.Language;

namespace DrumPrint.Audio;

/// <summary>A folder that a chain names files in and that is not there: one mistake, however many files it is.</summary>
internal sealed class MissingFolder
{
    private readonly string _sessionFolder;
    private readonly string _folder;

    private MissingFolder(string sessionFolder, string folder, IReadOnlyList<NamedFile> files)
    {
        _sessionFolder = sessionFolder;
        _folder = folder;
        Files = files;
    }

    /// <summary>The files it should hold, in the chain's order.</summary>
    public IReadOnlyList<NamedFile> Files { get; }

    /// <summary>Finds the folders that are missing.</summary>
    /// <param name="sessionFolder">The folder of the chain; empty for the current one.</param>
    /// <param name="files">What the chain names.</param>
    public static IReadOnlyList<MissingFolder> Among(string sessionFolder, IEnumerable<NamedFile> files) =>
    [
        .. files.Select(f => (File: f, Folder: Topmost(sessionFolder, f.File)))
            .Where(f => f.Folder is not null)
            .GroupBy(f => f.Folder!, f => f.File, StringComparer.Ordinal)
            .Select(g => new MissingFolder(sessionFolder, g.Key, [.. g])),
    ];

    /// <summary>What is missing, who names it, and where the files may be instead.</summary>
    public override string ToString() => $"the folder {Show.Name(_folder)} is not there: {Who} in it.{Advice()}";

    private string Who
    {
        get
        {
            if (Files.Count == 1)
            {
                return $"{Files[0].Kind} '{Show.Name(Files[0].Name)}' names {Show.Name(Path.GetFileName(Files[0].File))}";
            }

            var kinds = Files.CountBy(f => f.Kind).Select(k => FormattableString.Invariant($"{k.Value} {k.Key}{(k.Value == 1 ? "" : "s")}"));
            return $"{Show.List([.. kinds])} name files";
        }
    }

    // The highest folder on the way to a file that is not there; null when the file's own folder is.
    private static string? Topmost(string sessionFolder, string file)
    {
        string? missing = null;
        for (var folder = Path.GetDirectoryName(file); !string.IsNullOrEmpty(folder) && !Directory.Exists(Path.Combine(sessionFolder, folder)); folder = Path.GetDirectoryName(folder))
        {
            missing = folder;
        }

        return missing;
    }

    private string Advice()
    {
        try
        {
            if (Path.GetDirectoryName(Path.GetFullPath(Path.Combine(_sessionFolder, _folder))) is not { } parent)
            {
                return " There is no such drive or share."; // Windows only
            }

            var folders = Directory.EnumerateDirectories(parent).Order(StringComparer.Ordinal).Append(parent).ToList();
            var best = folders.Select(f => (Folder: f, Files: Files.Count(file => IsIn(f, file)))).MaxBy(f => f.Files);
            return best.Files > 0
                ? FormattableString.Invariant($" {(best.Folder == parent ? parent : Path.GetFileName(best.Folder))} holds {best.Files} of these names; if that is the folder, name it in the chain.")
                : Nearest.Word(Path.GetFileName(_folder), folders.SkipLast(1).Select(f => Path.GetFileName(f))) is { } name ? $" Did you mean {name}?"
                : $" The nearest folder that is there is {parent}.";
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            return "";
        }
    }

    private bool IsIn(string folder, NamedFile file) => File.Exists(Path.Combine(folder, Path.GetRelativePath(_folder, file.File)));
}

/// <summary>A file as a chain names it.</summary>
/// <param name="Kind">What it is for: <c>track</c> or <c>impulse</c>.</param>
/// <param name="Name">The name of that.</param>
/// <param name="File">The path, from the chain.</param>
/// <param name="Line">Where the chain says so, from 1.</param>
internal sealed record NamedFile(string Kind, string Name, string File, int Line);
