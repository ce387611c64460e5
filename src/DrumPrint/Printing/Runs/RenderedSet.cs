using DrumPrint.Tickets;

namespace DrumPrint.Printing.Runs;

/// <summary>The files of a run, finished and not yet under their names.</summary>
/// <param name="Chosen">Every file that was asked for, by number; those that are there already have no writer.</param>
/// <param name="Parts">What each new print says of how it was made, by number; nothing of an excerpt.</param>
/// <param name="Account">What was made.</param>
/// <param name="Ticket">The ticket that speaks for them; null when the run writes none.</param>
internal sealed record RenderedSet(
    IReadOnlyList<PrintFigures> Chosen,
    IReadOnlyDictionary<int, PrintPart> Parts,
    RunAccount Account,
    Ticket? Ticket)
{
    /// <summary>Those that were made anew.</summary>
    public IEnumerable<PrintFigures> New => Chosen.Where(f => f.Writer is not null);
}
