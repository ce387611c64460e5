using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Language;
using DrumPrint.Printing.Runs;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Folder;

/// <summary>Tells which prints of an earlier run a new one takes the place of, where they were not the same.</summary>
/// <remarks>The ticket beside them says what they sound like, and without one each print says how it was made; sound is read only
/// where the length is another, for a print that only got longer replaces nothing.</remarks>
/// <param name="setup">The run.</param>
/// <param name="tickets">What vouches for the prints that are there.</param>
/// <param name="frames">Length of every new print.</param>
/// <param name="length">Looks whether a print of another length is the same otherwise.</param>
/// <param name="changed">Those that are kept in another place.</param>
/// <param name="newPart">What a new print carries, by its target.</param>
internal sealed class ReplacedPrints(RunSetup setup, EarlierTickets tickets, long frames, OnlyLength length, ChangedPrints changed, Func<PrintFigures, PrintPart> newPart)
{
    private const string OtherSound = "which sounded different";
    private const string Longer = "which were longer, and the same up to where the new ones end";
    private const string OtherWordLength = "of another word length, and perhaps of another sound";
    private const string MadeOtherwise = "made with other settings or raw files, and perhaps of another sound";

    /// <summary>The sentences about them, before the new prints take their names; none when nothing else was there.</summary>
    public IReadOnlyList<string> Notes(IReadOnlyList<PrintFigures> chosen)
    {
        var replaced = chosen.Where(f => f.Writer is not null && !changed.Keeps(f) && File.Exists(setup.PathOf(f.Target))).ToList();
        var ticket = replaced.Count == 0 ? null : tickets.Current;
        return
        [
            .. replaced.Select(f => (Name: string.Create(CultureInfo.InvariantCulture, $"{f.Target.Number:00}_{f.Target.Name}"), How: Difference(f, ticket)))
                .Where(r => r.How is not null)
                .GroupBy(r => r.How, r => r.Name)
                .Select(g => $"Replaced: {Show.List([.. g])}, {g.Key}. The earlier files are gone; raise song.version before you print to keep both next time."),
        ];
    }

    // How the file that is there differs from the new one; null when it does not.
    private string? Difference(PrintFigures figures, Ticket? ticket)
    {
        var name = setup.NameOf(figures.Target);
        if (ticket?.Prints.FirstOrDefault(p => p.FileName == name) is not { } old)
        {
            return IsMadeOtherwise(figures) ? MadeOtherwise : null;
        }

        return old.AudioSha256 == figures.Writer!.AudioSha256 ? null
            : ticket.Encoding != setup.Encoding ? OtherWordLength
            : ticket.Frames == frames || !length.IsSame(figures, setup.PathOf(figures.Target)) ? OtherSound
            : ticket.Frames < frames ? null
            : Longer;
    }

    private bool IsOnlyLonger(PrintFigures figures, long before) => before < frames && length.IsSame(figures, setup.PathOf(figures.Target));

    // The version of the program says nothing of the sound.
    private bool IsMadeOtherwise(PrintFigures figures)
    {
        try
        {
            return PrintPart.Read(setup.PathOf(figures.Target)) is { } old
                && !((old with { Engine = EngineVersion.Text, Frames = frames }).ToChunk().Data.Span.SequenceEqual(newPart(figures).ToChunk().Data.Span)
                    && (old.Frames == frames || IsOnlyLonger(figures, old.Frames)));
        }
        catch (Exception e) when (e is TicketException or AudioFileException)
        {
            return false; // a file that cannot be read is no loss
        }
    }
}
