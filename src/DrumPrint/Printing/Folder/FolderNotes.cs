using DrumPrint.Printing.Runs;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Folder;

/// <summary>What a run does to a folder that holds prints already, in sentences.</summary>
/// <param name="All">All of them.</param>
/// <param name="Losses">Those that tell what is gone.</param>
internal sealed record FolderNotes(IReadOnlyList<string> All, IReadOnlyList<string> Losses)
{
    /// <summary>Those of a run, before the new prints take their names.</summary>
    /// <param name="setup">A run of the whole song.</param>
    /// <param name="tickets">What vouches for the prints that are there.</param>
    /// <param name="chosen">The prints it was to make.</param>
    /// <param name="isNothingNew">Whether it leaves the folder as it is.</param>
    /// <param name="frames">Length of every print.</param>
    /// <param name="length">Looks whether a print of another length is the same otherwise.</param>
    /// <param name="changed">Files there that somebody changed after they were printed.</param>
    /// <param name="newPart">What a new print carries.</param>
    public static FolderNotes Of(RunSetup setup, EarlierTickets tickets, IReadOnlyList<PrintFigures> chosen, bool isNothingNew, long frames, OnlyLength length, ChangedPrints changed, Func<PrintFigures, PrintPart> newPart)
    {
        var replaced = new ReplacedPrints(setup, tickets, frames, length, changed, newPart).Notes(chosen);
        var taken = TicketNotes.Taken(setup, chosen);
        return new FolderNotes(
            [.. changed.Notes, .. replaced, .. new[] { StalePrints.Note(setup, isNothingNew), taken ?? TicketNotes.Missing(setup, chosen) }.OfType<string>()],
            [.. changed.Notes, .. replaced, .. new[] { taken }.OfType<string>()]);
    }
}
