using DrumPrint.Prints.Ticketing;

namespace DrumPrint.Prints;

/// <summary>Tells what becomes of the ticket when only some prints are made.</summary>
internal static class TicketNotes
{
    /// <summary>The sentence about it, before the new prints take their names; null when the ticket is written or stays.</summary>
    public static string? Note(RunSetup setup, IReadOnlyList<PrintFigures> chosen)
    {
        if (setup.Selection.IsWhole || chosen.All(f => f.Writer is null))
        {
            return null;
        }

        var name = Ticket.FileName(setup.Chain.Song);
        return File.Exists(Path.Combine(setup.Folder, name))
            ? $"The ticket {name} was taken away, for it would vouch for prints of two runs. Print without --only to have it written again; until then each print still says how it was made."
            : "No ticket was written, for it vouches for a whole session. Print without --only to have one; each print says how it was made.";
    }
}
