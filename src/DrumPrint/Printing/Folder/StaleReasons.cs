using System.Globalization;
using DrumPrint.Diff;
using DrumPrint.Printing.Runs;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Folder;

/// <summary>Says why a print had to be rendered, by what the file that was there says of itself.</summary>
internal static class StaleReasons
{
    /// <param name="setup">The run.</param>
    /// <param name="set">Its new files, not yet published.</param>
    /// <param name="file">What lies under the print's name.</param>
    public static IReadOnlyList<string> Of(RunSetup setup, RenderedSet set, FileVerdict file)
    {
        if (setup.Options.Store!.Anew)
        {
            return ["asked for with --anew"];
        }

        if ((file.State == FileState.Absent ? Earlier(setup, file.Print.Target) : file.Path) is not { } path)
        {
            return ["not printed here before"];
        }

        var (part, isGarbled) = file.State == FileState.Absent ? EarlierRecord.Read(path) : (file.Part, file.IsGarbled);
        if (part is null)
        {
            return isGarbled
                ? [$"{Path.GetFileName(path)} was damaged and could not be read"]
                : [$"{Path.GetFileName(path)} did not say how it was made, as files do that another program saved"];
        }

        var changes = Changes(setup, set, file, path, part);
        return changes.Count > 0 ? changes
            : file.MayBeChanged ? [$"{Path.GetFileName(path)} was changed or damaged after it was printed"]
            : [$"nothing changed in the chain or the raw files, but {Path.GetFileName(setup.Options.Store.Folder)} has no note of this print (it was emptied or left behind, or the print came from --no-store or from another build of DrumPrint), so it was made again to be sure; the next run will know it"];
    }

    // The length is told apart from the rest: on its own it may change nothing that is heard.
    private static List<string> Changes(RunSetup setup, RenderedSet set, FileVerdict file, string path, PrintPart part)
    {
        var now = set.Parts[file.Print.Target.Number] with { Frames = part.Frames };
        var changes = ChainChanges.Of(Made.Of(path, part, null), Made.Of(path, now, null)).Select(c => c.ToString()).ToList();
        var frames = set.Account.Frames;
        if (part.Frames != frames)
        {
            var sound = changes.Count > 0 ? ""
                : !file.IsSameWhileBothLast(path) ? $"; {Path.GetFileName(path)} held other sound before that, too"
                : $"; the sound is the same up to {(frames > part.Frames ? "there" : "the new end")}";
            changes.Add(LengthWords.Of(part.Frames, frames, setup.Chain.Song.RateHz) + sound);
        }

        return changes;
    }

    // A file of the same number: of this version, or of the nearest before it, or whatever there is.
    private static string? Earlier(RunSetup setup, PrintTarget target)
    {
        // An empty file under the print's own name says nothing either way.
        if (!Directory.Exists(setup.Folder) || File.Exists(setup.PathOf(target)))
        {
            return File.Exists(setup.PathOf(target)) ? setup.PathOf(target) : null;
        }

        var song = setup.Chain.Song;
        return Directory.GetFiles(setup.Folder, string.Create(CultureInfo.InvariantCulture, $"{target.Number:00}_*.wav"))
            .Select(p => (Path: p, Version: VersionInName.OfPrint(Path.GetFileName(p), song.Code)))
            .OrderByDescending(p => p.Version <= song.Version)
            .ThenByDescending(p => p.Version)
            .ThenByDescending(p => p.Path, StringComparer.Ordinal)
            .FirstOrDefault().Path;
    }
}
