using DrumPrint.Printing.Runs;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Folder;

/// <summary>Tells what becomes of the ticket when only some prints are made.</summary>
internal static class TicketNotes
{
    /// <summary>That a run takes the ticket away, before the new prints take their names; null when it does not.</summary>
    public static string? Taken(RunSetup setup, RenderedSet set) => TakesTicket(setup, set) && IsThere(setup)
        ? $"The ticket {Name(setup)} was taken away, for it speaks for one whole print, and some files are newer now. Print without --only to have it written again; until then each file itself says how it was made."
        : null;

    /// <summary>That there is none and none is written; null when one is written or stays.</summary>
    public static string? Missing(RunSetup setup, RenderedSet set) => TakesTicket(setup, set) && !IsThere(setup)
        ? "No ticket was written, for it speaks for one whole print. Print without --only to have one; each file itself says how it was made."
        : null;

    private static bool TakesTicket(RunSetup setup, RenderedSet set) => setup.Run is PrintRun.SomePrints && set.New.Any();

    private static bool IsThere(RunSetup setup) => File.Exists(Path.Combine(setup.Folder, Name(setup)));

    private static string Name(RunSetup setup) => Ticket.FileName(setup.Chain.Song);
}
