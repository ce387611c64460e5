using DrumPrint.Audio;
using DrumPrint.Language;

namespace DrumPrint.Session;

/// <summary>Tells which sound files lie beside those that are missing and are named by nothing: a renamed one is among them.</summary>
/// <param name="isNamed">Whether a file, by its full path, is one that the chain names.</param>
internal sealed class UnusedFiles(Func<string, bool> isNamed)
{
    private const int Most = 5;

    private readonly List<(string File, string Path)> _missing = [];

    /// <summary>Takes down a file that is not there.</summary>
    /// <param name="file">The path, from the chain.</param>
    /// <param name="path">Where that leads.</param>
    public void Add(string file, string path) => _missing.Add((file, Path.GetFullPath(path)));

    /// <summary>One sentence for each folder in which files are missing and others lie unused, the likeliest names first. A file
    /// that was offered in place of the only missing one is not told twice.</summary>
    public IEnumerable<string> Sentences()
    {
        foreach (var folder in _missing.GroupBy(m => Path.GetDirectoryName(m.Path)!, StringComparer.Ordinal))
        {
            var names = folder.Select(m => Path.GetFileName(m.Path)).ToList();
            var unused = Unused(folder.Key).OrderBy(n => names.Min(m => Nearest.Distance(n, m))).ThenBy(n => n, StringComparer.Ordinal).ToList();
            if (unused.Count == 0 || (unused.Count == 1 && names.Count == 1 && NearbyFile.Meant(names[0], unused) is not null))
            {
                continue;
            }

            var where = Path.GetDirectoryName(folder.First().File) is { Length: > 0 } named ? $"in {named}" : "beside the chain";
            var more = unused.Count > Most ? FormattableString.Invariant($", … ({unused.Count} in all)") : "";
            yield return $"{where} and not used: {string.Join(", ", unused.Take(Most).Select(Show.Name))}{more}.";
        }
    }

    private List<string> Unused(string folder)
    {
        try
        {
            return [.. Directory.EnumerateFiles(folder).Where(f => AudioFileName.IsLikely(f) && !isNamed(f)).Select(f => Path.GetFileName(f))];
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            return [];
        }
    }
}
