using DrumPrint.Printing.Runs;

namespace DrumPrint.Printing.Folder;

/// <summary>What a run does to a folder that holds prints already, in sentences.</summary>
/// <param name="All">All of them.</param>
/// <param name="Losses">Those that tell what is gone.</param>
internal sealed record FolderNotes(IReadOnlyList<string> All, IReadOnlyList<string> Losses)
{
    /// <summary>Those of a run, before the new prints take their names.</summary>
    /// <param name="setup">The run.</param>
    /// <param name="set">Its new files.</param>
    /// <param name="verdict">What lies under their names.</param>
    /// <param name="isNothingNew">Whether it leaves the folder as it is.</param>
    public static FolderNotes Of(RunSetup setup, RenderedSet set, FolderVerdict verdict, bool isNothingNew)
    {
        var changed = ChangedPrints.Notes(verdict, setup.Folder);
        if (!setup.Run.EndsTicket)
        {
            return new FolderNotes(changed, changed);
        }

        var replaced = ReplacedPrints.Notes(verdict);
        var taken = TicketNotes.Taken(setup, set);
        return new FolderNotes(
            [.. changed, .. replaced, .. new[] { StalePrints.Note(setup, isNothingNew), taken ?? TicketNotes.Missing(setup, set) }.OfType<string>()],
            [.. changed, .. replaced, .. new[] { taken }.OfType<string>()]);
    }
}
