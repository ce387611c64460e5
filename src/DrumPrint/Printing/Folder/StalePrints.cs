using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Language;
using DrumPrint.Printing.Runs;
using DrumPrint.Session;

namespace DrumPrint.Printing.Folder;

/// <summary>Tells of prints that lie in the folder and are none of the chain's. Their number or name is no longer in it,
/// or they are of another version.</summary>
internal static class StalePrints
{
    // Past these, the files of another version are counted.
    private const int MostNames = 3;

    /// <summary>The sentence about them; null without any.</summary>
    /// <param name="setup">The run.</param>
    /// <param name="isTold">Whether an earlier run has named them; then it only says how many there are.</param>
    public static string? Note(RunSetup setup, bool isTold)
    {
        if (!Directory.Exists(setup.Folder))
        {
            return null;
        }

        var current = setup.Selection.All.Select(setup.NameOf).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var stale = Prints(setup.Folder, setup.Chain.Song.Code)
            .Where(f => !current.Contains(f.Name))
            .OrderBy(f => f.Version)
            .ThenBy(f => f.Name, StringComparer.Ordinal)
            .ToLookup(f => f.Version, f => f.Name);
        var words = stale
            .OrderByDescending(v => v.Key == setup.Chain.Song.Version)
            .SelectMany(v => v.Key == setup.Chain.Song.Version || v.Count() <= MostNames
                ? v
                : Enumerable.Repeat(string.Create(CultureInfo.InvariantCulture, $"{v.Count()} files of version {v.Key}"), 1))
            .ToList();
        var count = stale.Sum(v => v.Count());
        return words.Count == 0
            ? null
            : isTold
            ? string.Create(CultureInfo.InvariantCulture, $"Also in {setup.Folder} as before: {count} {(count == 1 ? "file" : "files")} not made by this chain as it is now.")
            : $"Also in {setup.Folder}, but not made by this chain as it is now: {Show.Some(words)}. Sort them out before you hand the folder over.";
    }

    private static List<(string Name, int Version)> Prints(string folder, string code)
    {
        try
        {
            return
            [
                .. Directory.EnumerateFiles(folder, "*.wav")
                    .Select(path => (Path: path, Name: Path.GetFileName(path)))
                    .Select(f => (f.Path, f.Name, Version: VersionInName.OfPrint(f.Name, code)))
                    .Where(f => f.Version is not null && IsPrint(f.Path))
                    .Select(f => (f.Name, f.Version!.Value)),
            ];
        }
        catch (Exception e) when (e is AudioFileException || FileTrouble.IsFileTrouble(e))
        {
            return []; // what cannot be looked at must not stop a print
        }
    }

    private static bool IsPrint(string path)
    {
        try
        {
            return EarlierPrint.MayReplace(path);
        }
        catch (AudioFileException)
        {
            return false; // what cannot be looked at
        }
    }
}
