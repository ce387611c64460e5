using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains.Json;
using DrumPrint.Prints.Ticketing;

namespace DrumPrint.Prints;

/// <summary>Tells which prints of an earlier run a new one takes the place of, where they were not the same.</summary>
/// <remarks>The ticket beside them says what they sound like, and without one each print says how it was made; no sound is
/// read for it.</remarks>
/// <param name="setup">The run.</param>
/// <param name="frames">Length of every new print.</param>
/// <param name="ticket">The ticket that lies there; null without one.</param>
/// <param name="newPart">What a new print carries, by its target.</param>
internal sealed class ReplacedPrints(RunSetup setup, long frames, Ticket? ticket, Func<PrintFigures, PrintPart> newPart)
{
    private const string OtherSound = "which sounded different";
    private const string OtherLength = "with another length or word length, which may have sounded different too";
    private const string MadeOtherwise = "made in another way, which may have sounded different";

    /// <summary>The sentences about them, before the new prints take their names; none when nothing else was there.</summary>
    public IReadOnlyList<string> Notes(IReadOnlyList<PrintFigures> chosen)
    {
        var replaced = chosen.Where(f => f.Writer is not null && File.Exists(setup.PathOf(f.Target))).ToList();
        return
        [
            .. replaced.Select(f => (Name: string.Create(CultureInfo.InvariantCulture, $"{f.Target.Number:00}_{f.Target.Name}"), How: Difference(f)))
                .Where(r => r.How is not null)
                .GroupBy(r => r.How, r => r.Name)
                .Select(g => $"Replaced: {Show.List([.. g])}, {g.Key}. Raise song.version to keep both."),
        ];
    }

    // How the file that is there differs from the new one; null when it does not.
    private string? Difference(PrintFigures figures)
    {
        var name = setup.NameOf(figures.Target);
        if (ticket?.Prints.FirstOrDefault(p => p.FileName == name) is not { } old)
        {
            return IsMadeOtherwise(figures) ? MadeOtherwise : null;
        }

        return old.AudioSha256 == figures.Writer!.AudioSha256 ? null
            : ticket.Frames == frames && ticket.Encoding == setup.Encoding ? OtherSound
            : OtherLength;
    }

    // The version of the program says nothing of the sound.
    private bool IsMadeOtherwise(PrintFigures figures)
    {
        try
        {
            return PrintPart.Read(setup.PathOf(figures.Target)) is { } old
                && !(old with { Engine = EngineVersion.Text }).ToChunk().Data.Span.SequenceEqual(newPart(figures).ToChunk().Data.Span);
        }
        catch (Exception e) when (e is TicketException or AudioFileException)
        {
            return false; // a file that cannot be read is no loss
        }
    }
}
