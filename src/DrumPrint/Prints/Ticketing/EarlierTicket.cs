using DrumPrint.Chains;

namespace DrumPrint.Prints.Ticketing;

/// <summary>Finds the ticket of an earlier run in the folder of a new one.</summary>
internal static class EarlierTicket
{
    /// <summary>The ticket; null when there is none, or none that can be read: it is about to be replaced too.</summary>
    public static Ticket? Find(string folder, Song song)
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
}
