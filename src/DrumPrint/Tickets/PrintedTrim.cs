using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Session;

namespace DrumPrint.Tickets;

/// <summary>The common trim of the prints that lie beside a chain.</summary>
internal static class PrintedTrim
{
    /// <summary>By how many dB they were lowered together, 0 or less; null where the chain asks for no common trim, or no ticket tells of one.</summary>
    public static double? Of(Chain chain)
    {
        var path = Path.Combine(chain.Folder, PrintFileName.Folder, Ticket.FileName(chain.Song));
        try
        {
            return chain.Output.LowerTogether && File.Exists(path) ? Ticket.Read(path).TrimDb : null;
        }
        catch (Exception e) when (e is TicketException or UnreadableFileException)
        {
            return null;
        }
    }
}
