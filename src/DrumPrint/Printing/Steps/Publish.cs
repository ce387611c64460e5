using DrumPrint.Audio;
using DrumPrint.Printing.Folder;
using DrumPrint.Printing.Runs;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Steps;

/// <summary>Last step: gives the new files their names.</summary>
/// <param name="setup">The run.</param>
/// <param name="set">Its new files.</param>
/// <param name="verdict">What lies under their names.</param>
internal sealed class Publish(RunSetup setup, RenderedSet set, FolderVerdict verdict)
{
    private readonly string? _ticket = set.Ticket?.ToText();

    private string TicketPath => Path.Combine(setup.Folder, Ticket.FileName(setup.Chain.Song));

    /// <summary>Whether the folder stays as it is: then whatever is there still vouches for it.</summary>
    public bool IsNothingNew => !set.New.Any() && (_ticket is null || TicketWriter.IsThere(TicketPath, _ticket));

    /// <summary>Does it.</summary>
    /// <exception cref="AudioFileException">A file cannot be written.</exception>
    public void Run()
    {
        setup.Lock.Take(setup.Folder);
        if (setup.Run.EndsTicket)
        {
            // Until the new set is whole, nothing vouches for it.
            RemoveTicket();
        }

        foreach (var figures in set.New)
        {
            var file = verdict.Of(figures.Target.Number);
            if (verdict.Keeps(file))
            {
                SetAside(file.Path);
            }

            figures.Writer!.Publish();
        }

        if (_ticket is not null)
        {
            TicketWriter.Write(TicketPath, _ticket);
        }
    }

    private void RemoveTicket()
    {
        try
        {
            File.Delete(TicketPath);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(TicketPath, e);
        }
    }

    private void SetAside(string path)
    {
        var folder = Path.Combine(setup.Folder, ChangedPrints.FolderName);
        var kept = Free(folder, Path.GetFileName(path));
        try
        {
            Directory.CreateDirectory(folder);
            File.Move(path, kept);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(Directory.Exists(folder) ? kept : folder, e);
        }
    }

    // The name itself, or the first that is free with a number behind it.
    private static string Free(string folder, string name)
    {
        var path = Path.Combine(folder, name);
        for (var n = 2; File.Exists(path); n++)
        {
            path = Path.Combine(folder, FormattableString.Invariant($"{Path.GetFileNameWithoutExtension(name)}_{n}{Path.GetExtension(name)}"));
        }

        return path;
    }
}
