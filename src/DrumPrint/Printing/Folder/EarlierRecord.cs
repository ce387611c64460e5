using DrumPrint.Audio;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Folder;

/// <summary>Reads what a file that was there says of how it was made.</summary>
internal static class EarlierRecord
{
    /// <summary>Its record, null without one; and whether the file or its record cannot be read.</summary>
    public static (PrintPart? Part, bool IsGarbled) Read(string path)
    {
        try
        {
            return (PrintPart.Read(path), false);
        }
        catch (Exception e) when (e is TicketException or AudioFileException)
        {
            return (null, true);
        }
    }
}
