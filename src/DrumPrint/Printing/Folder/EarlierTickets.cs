using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Folder;

/// <summary>The tickets that lie in a folder before a run puts its own there.</summary>
/// <param name="folder">The folder.</param>
/// <param name="song">The song that is printed.</param>
internal sealed class EarlierTickets(string folder, Song song)
{
    private readonly Lazy<Ticket?> _current = new(() => Read(folder, song));
    private readonly Lazy<Ticket?> _before = new(() => VersionBefore(folder, song) is { } version ? Read(folder, song with { Version = version }) : null);

    /// <summary>That of the version that is printed; null without one that can be read.</summary>
    public Ticket? Current => _current.Value;

    /// <summary>That of the nearest version before it; null without one that can be read.</summary>
    public Ticket? Before => _before.Value;

    // A damaged ticket is about to be replaced too.
    private static Ticket? Read(string folder, Song song)
    {
        var path = Path.Combine(folder, Ticket.FileName(song));
        try
        {
            return File.Exists(path) ? Ticket.Read(path) : null;
        }
        catch (Exception e) when (e is TicketException or UnreadableFileException)
        {
            return null;
        }
    }

    private static int? VersionBefore(string folder, Song song)
    {
        try
        {
            return !Directory.Exists(folder) ? null : Directory.EnumerateFiles(folder)
                .Select(path => VersionInName.OfTicket(Path.GetFileName(path), song.Code))
                .Where(version => version < song.Version)
                .Max();
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            return null; // what cannot be looked at must not stop a print
        }
    }
}
