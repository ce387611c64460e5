using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Tickets;

namespace DrumPrint.Reprinting;

/// <summary>Writes the chain that made a print as a file again, for whoever has lost or changed it.</summary>
public static class ChainRecovery
{
    /// <summary>Writes it, and beside it the tempo map where that is not there.</summary>
    /// <param name="target">A ticket, a print, or a folder with one ticket.</param>
    /// <param name="file">The file to write; null for a name of its own in the present folder.</param>
    /// <param name="warn">Told what to know before anything is written, in a sentence.</param>
    /// <exception cref="UsageException">The file is there already, the target does not hold exactly one chain, or its tempo map would lie where nothing
    /// may be written.</exception>
    /// <exception cref="TicketException">The target is a ticket or print that this version cannot read.</exception>
    /// <exception cref="AudioFileException">A file cannot be read or written.</exception>
    public static RecoveredChain Write(string target, string? file, Action<string>? warn = null) => Write(target, file, warn, FileSteps.Plain);

    /// <summary>The same, written by given steps.</summary>
    internal static RecoveredChain Write(string target, string? file, Action<string>? warn, FileSteps steps)
    {
        ArgumentNullException.ThrowIfNull(target);
        var read = ReprintTarget.Read(target);
        if (read.Jobs is not [{ } job])
        {
            var names = read.Jobs.Select(j => Path.GetFileName(j.Source)).Concat(read.Hopeless.Select(h => h.FileName)).ToList();
            throw new UsageException($"{target} holds {(names.Count == 1 ? "none that can be read" : "several")}: {Show.Some(names)}. Name one ticket or print.");
        }

        var isWhole = job.Source.EndsWith(".json", StringComparison.OrdinalIgnoreCase);
        var song = job.Chain.Song;
        var path = file ?? (isWhole ? string.Create(CultureInfo.InvariantCulture, $"{song.Code}_v{song.Version}.chain.json") : Path.GetFileNameWithoutExtension(job.Source) + ".chain.json");
        if (Path.Exists(path))
        {
            throw new UsageException($"{path} is there already, and is not replaced. Name another file with --out.");
        }

        var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        var tempo = song.Tempo is { } map ? RecoveredTempo.Of(folder, map) : null;
        if (Edited(job) is { } edited)
        {
            warn?.Invoke(edited);
        }

        // The chain last: while it is not there, the same can be tried again.
        if (tempo?.Text is { } text)
        {
            Save(tempo.Path, text, steps);
        }

        Save(path, ChainWriter.Canonical(job.Chain), steps);

        return new RecoveredChain(path, tempo?.Text is null ? null : tempo.Path, [.. new[] { Comments(job, isWhole), tempo?.Note, Missing(folder, job.Chain) }.OfType<string>()]);
    }

    private static string Comments(ReprintJob job, bool isWhole) => isWhole
        ? "Every default is spelled out; comments and layout are not in a ticket."
        : $"It holds what {Path.GetFileNameWithoutExtension(job.Source)} is made of and nothing else; the whole chain is in a ticket. Every default is spelled out.";

    private static string? Edited(ReprintJob job) => job.IsChainEdited ? $"What {Path.GetFileName(job.Source)} holds was edited after printing: it is not the chain whose hash was taken down with it." : null;

    private static string? Missing(string folder, Chain chain)
    {
        var files = chain.Tracks.SelectMany(t => t.Files).Concat(chain.Impulses.Select(i => i.File)).ToList();
        var reach = new SessionReach(ReadPolicy.Default, folder);
        var missing = files.Where(f => reach.Outside(f) is not null || !File.Exists(Path.Combine(folder, f))).ToList();
        return missing.Count == 0 ? null : string.Create(
            CultureInfo.InvariantCulture,
            $"{missing.Count} of the {files.Count} sound files it names are not there as seen from {folder}: {Show.Some(missing)}. Move the chain to where they are, or mend their paths in it.");
    }

    private static void Save(string path, string text, FileSteps steps)
    {
        try
        {
            var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
            steps.MakeFolder(folder);
            Leftovers.Clear(folder, steps);
            StagedFile.Write(path, text, replaces: false, steps: steps);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(path, e);
        }
    }
}
