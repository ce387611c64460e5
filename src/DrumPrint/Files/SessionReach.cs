using DrumPrint.Language;

namespace DrumPrint.Files;

/// <summary>Tells which files a chain may name, as it stands in one folder.</summary>
/// <param name="policy">What the user allows.</param>
/// <param name="folder">The folder of the chain; empty for the current one.</param>
internal sealed class SessionReach(ReadPolicy policy, string folder)
{
    private static readonly StringComparison Names = OperatingSystem.IsLinux() ? StringComparison.Ordinal : StringComparison.OrdinalIgnoreCase;

    private readonly string _folder = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder.Length == 0 ? "." : folder));
    private readonly Dictionary<string, string> _real = new(StringComparer.Ordinal);

    /// <summary>The folder in which a file lies that may not be read; null for one that may. Of a path that leads outside by its words
    /// nothing is looked at, not even whether it is there.</summary>
    /// <param name="file">The path, from the chain.</param>
    public string? Outside(string file)
    {
        if (policy.AllowsOutside)
        {
            return null;
        }

        string full;
        try
        {
            full = Path.GetFullPath(Path.Combine(_folder, file));
        }
        catch (ArgumentException)
        {
            return null; // no name at all; what opens it says so
        }

        var session = IsOneUp(file, full) ? Path.GetDirectoryName(_folder) ?? _folder : _folder;
        List<string> folders = [session, .. policy.Folders.Select(f => Path.TrimEndingDirectorySeparator(Path.GetFullPath(f)))];
        if (!folders.Any(f => IsIn(f, full)))
        {
            return Path.GetDirectoryName(full) ?? full;
        }

        var real = RealFile(full);
        return folders.Any(f => IsIn(RealFolder(f), real)) ? null : Path.GetDirectoryName(real) ?? real;
    }

    /// <summary>Why a file of the folder is left out that is a link, or lies in a linked folder, and so lies elsewhere.</summary>
    /// <param name="file">Its path from the folder.</param>
    /// <returns>A clause after the file's name; null for one that lies here.</returns>
    public string? LeadsOut(string file) => Outside(file) is { } outside
        ? $"is a link that leads out of this folder, to {Show.Name(outside)}; copy the file here, or allow that folder in {UserSettings.DefaultPath ?? "your settings"}: {UserSettings.Line(outside)}"
        : null;

    /// <summary>What to tell of a folder that may not be read from, and how to allow it.</summary>
    /// <param name="outside">What <see cref="Outside"/> gave.</param>
    public string Advice(string outside) =>
        $"that lies outside the session in {_folder}, and a chain from somebody else could name any file of yours. If you know this chain, add --allow-outside; to allow this folder for good, write into {UserSettings.DefaultPath ?? "your settings"}: {UserSettings.Line(outside)}";

    private bool IsOneUp(string file, string full)
    {
        if (Path.IsPathRooted(file))
        {
            return false;
        }

        var steps = Path.GetRelativePath(_folder, full).Split(Path.DirectorySeparatorChar, Path.AltDirectorySeparatorChar);
        return steps.Length > 1 && steps[0] == ".." && steps[1] != "..";
    }

    private static bool IsIn(string folder, string path) =>
        path.StartsWith(folder, Names) && (path.Length == folder.Length || Path.EndsInDirectorySeparator(folder) || path[folder.Length] == Path.DirectorySeparatorChar);

    private string RealFile(string full)
    {
        var named = Path.Combine(RealFolder(Path.GetDirectoryName(full) ?? full), Path.GetFileName(full));
        return new FileInfo(named).LinkTarget is null ? named : RealPath.Of(named);
    }

    private string RealFolder(string path)
    {
        if (!_real.TryGetValue(path, out var real))
        {
            _real.Add(path, real = RealPath.Of(path));
        }

        return real;
    }
}
