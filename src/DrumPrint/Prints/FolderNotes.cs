using DrumPrint.Prints.Ticketing;

namespace DrumPrint.Prints;

/// <summary>What a run does to a folder that holds prints already, in sentences.</summary>
internal static class FolderNotes
{
    /// <summary>All of them, before the new prints take their names.</summary>
    /// <param name="setup">A run of the whole song.</param>
    /// <param name="chosen">The prints it was to make.</param>
    /// <param name="frames">Length of every print.</param>
    /// <param name="ticket">The ticket that lies there; null without one.</param>
    /// <param name="newPart">What a new print carries.</param>
    public static IReadOnlyList<string> Of(RunSetup setup, IReadOnlyList<PrintFigures> chosen, long frames, Ticket? ticket, Func<PrintFigures, PrintPart> newPart) =>
    [
        .. new ReplacedPrints(setup, frames, ticket, newPart).Notes(chosen),
        .. new[] { StalePrints.Note(setup), TicketNotes.Note(setup, chosen) }.OfType<string>(),
    ];
}
