using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Live;

/// <summary>The common trim of the prints that were made last.</summary>
public static class LastTrim
{
    /// <summary>By how many dB they were lowered together; 0 where none were, or nothing tells of it.</summary>
    public static double Of(Chain chain)
    {
        ArgumentNullException.ThrowIfNull(chain);
        var path = Path.Combine(chain.Folder, PrintFileName.Folder, Ticket.FileName(chain.Song));
        try
        {
            return chain.Output.LowerTogether && File.Exists(path) ? Ticket.Read(path).TrimDb : 0;
        }
        catch (Exception e) when (e is TicketException or UnreadableFileException)
        {
            return 0;
        }
    }
}
