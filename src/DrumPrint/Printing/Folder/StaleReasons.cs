using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Diff;
using DrumPrint.Printing.Runs;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Folder;

/// <summary>Says why a print had to be rendered, by what the file that was there says of itself.</summary>
internal static class StaleReasons
{
    /// <param name="setup">The run.</param>
    /// <param name="attempt">What was rendered, not yet published.</param>
    /// <param name="frames">Length of every print.</param>
    /// <param name="number">The print.</param>
    /// <param name="length">Looks whether a print of another length is the same otherwise.</param>
    public static IReadOnlyList<string> Of(RunSetup setup, PrintAttempt attempt, long frames, int number, OnlyLength length)
    {
        var target = setup.Selection.All.First(t => t.Number == number);
        if (setup.Options.Store!.Anew)
        {
            return ["asked for with --anew"];
        }

        if (Earlier(setup, target) is not { } path)
        {
            return ["not printed here before"];
        }

        PrintPart? part;
        try
        {
            part = PrintPart.Read(path);
        }
        catch (Exception e) when (e is AudioFileException or TicketException)
        {
            return [$"{Path.GetFileName(path)} was damaged and could not be read"];
        }

        if (part is null)
        {
            return [$"{Path.GetFileName(path)} did not say how it was made, as files do that another program saved"];
        }

        // The length is told apart from the rest: on its own it may change nothing that is heard.
        var now = setup.Record!.Part(target, part.Frames, attempt.TrimDb, setup.Store!.TrackHashes);
        var changes = ChainChanges.Of(Made.Of(path, part, null), Made.Of(path, now, null)).Select(c => c.ToString()).ToList();
        if (part.Frames != frames)
        {
            var sound = changes.Count > 0 ? ""
                : !length.IsSame(attempt.Figures[number], path) ? $"; {Path.GetFileName(path)} held other sound before that, too"
                : $"; the sound is the same up to {(frames > part.Frames ? "there" : "the new end")}";
            changes.Add(length.Words(part.Frames, frames) + sound);
        }

        if (changes.Count > 0)
        {
            return changes;
        }

        return attempt.Figures[number].WasKnown
            ? [$"{Path.GetFileName(path)} was changed or damaged after it was printed"]
            : [$"nothing changed in the chain or the raw files, but {Path.GetFileName(setup.Options.Store.Folder)} has no note of this print (it was emptied or left behind, or the print came from --no-store or from another build of DrumPrint), so it was made again to be sure; the next run will know it"];
    }

    // The file under its name now; else one of the same number: of this version, or of the nearest before it, or whatever there is.
    private static string? Earlier(RunSetup setup, PrintTarget target)
    {
        var path = setup.PathOf(target);
        if (File.Exists(path) || !Directory.Exists(setup.Folder))
        {
            return File.Exists(path) ? path : null;
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
