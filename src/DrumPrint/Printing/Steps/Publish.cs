using DrumPrint.Audio;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Printing.Folder;
using DrumPrint.Printing.Runs;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Steps;

/// <summary>Last step: gives the new files and the ticket their names, all of them or none.</summary>
/// <param name="setup">The run.</param>
/// <param name="set">Its new files.</param>
/// <param name="verdict">What lies under their names.</param>
internal sealed class Publish(RunSetup setup, RenderedSet set, FolderVerdict verdict)
{
    private readonly string? _ticket = set.Ticket?.ToText();
    private readonly HashSet<string> _keptNames = new(StringComparer.OrdinalIgnoreCase);

    private string TicketPath => Path.Combine(setup.Folder, Ticket.FileName(setup.Chain.Song));

    /// <summary>Whether the folder stays as it is: then whatever is there still vouches for it.</summary>
    public bool IsNothingNew => !set.New.Any() && (_ticket is null || TicketWriter.IsThere(TicketPath, _ticket));

    /// <summary>Does it.</summary>
    /// <exception cref="AudioFileException">A file cannot be written; the message tells what became of the set.</exception>
    public void Run()
    {
        setup.Lock.Take(setup.Folder);
        using var ticket = _ticket is null ? null : Stage(_ticket);
        var entries = set.New.Select(f => Entry(f, verdict.Of(f.Target.Number))).OfType<SetEntry>().ToList();
        if (TicketEntry(ticket) is { } last)
        {
            entries.Add(last);
        }

        if (entries.Count == 0)
        {
            return;
        }

        try
        {
            new StagedSet(setup.Folder, new SetJournal(ChangedPrints.FolderName, entries), JournalSeal.OfUser(setup.Steps), setup.Steps).Publish();
        }
        catch (UnpublishedSetException e)
        {
            throw Told(e);
        }
    }

    private StagedFile Stage(string text) => setup.Steps.Do("write the ticket", () =>
    {
        StagedFile? file = null;
        try
        {
            file = StagedFile.Create(TicketPath, steps: setup.Steps);
            file.Append(System.Text.Encoding.UTF8.GetBytes(text));
            file.Complete();
            return file;
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            file?.Dispose();
            throw FileTrouble.Writing(TicketPath, e);
        }
    });

    // Null for a file that is there to the last byte.
    private SetEntry? Entry(PrintFigures figures, FileVerdict file)
    {
        var isThere = Path.Exists(file.Path);
        if (file.State == FileState.Same && isThere)
        {
            return null;
        }

        // What came there since it was looked at is somebody's.
        var isKept = verdict.Keeps(file) || (isThere && file.State == FileState.Absent && new FileInfo(file.Path).Length > 0);
        return new SetEntry(Path.GetFileName(file.Path))
        {
            Staged = Path.GetFileName(figures.Writer!.PartialPath),
            NewSha256 = figures.Writer.FileSha256,
            OldSha256 = isThere ? file.FileSha256 ?? FileHash.Sha256(file.Path) : null,
            Before = isThere && !isKept ? TemporaryName.New() : null,
            KeptAs = isThere && isKept ? KeptName(Path.GetFileName(file.Path)) : null,
        };
    }

    private string KeptName(string name)
    {
        var kept = Path.GetFileName(FreeName.In(Path.Combine(setup.Folder, ChangedPrints.FolderName), name, _keptNames));
        _keptNames.Add(kept);
        return kept;
    }

    // A run of some prints takes the ticket away; a reprint leaves it.
    private SetEntry? TicketEntry(StagedFile? ticket)
    {
        var isThere = setup.Run.EndsTicket && Path.Exists(TicketPath);
        return ticket is null && !isThere ? null : new SetEntry(Path.GetFileName(TicketPath))
        {
            Staged = ticket is null ? null : Path.GetFileName(ticket.TemporaryPath),
            NewSha256 = ticket is null ? null : FileHash.Sha256(ticket.TemporaryPath),
            OldSha256 = isThere ? FileHash.Sha256(TicketPath) : null,
            Before = isThere ? TemporaryName.New() : null,
        };
    }

    private static AudioFileException Told(UnpublishedSetException e)
    {
        var why = FileTrouble.Writing(e.Path, e.InnerException!).Problem;
        var moved = e.Moved.Count == 0 ? "" : $" {Show.List([.. e.Moved])} had made way or taken {(e.Moved.Count == 1 ? "its name" : "their names")}";
        var fate = e.IsUndone
            ? $"{(moved.Length == 0 ? "" : $"{moved}, and that was undone.")} Nothing of the set has changed: every print and the ticket are as they were."
            : $"{moved}, and that could not be undone. The set is unfinished: print again to finish it.";
        return new AudioFileException(e.Path, why + fate, e.InnerException);
    }
}
