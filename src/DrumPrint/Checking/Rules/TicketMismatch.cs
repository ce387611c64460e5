using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>What was delivered is not what was made.</summary>
internal sealed class TicketMismatch : CheckRule
{
    public override Rule Rule { get; } = new(
        "H8",
        Severity.Fault,
        "A file is not as the ticket says, or does not belong",
        "samples that differ from those the ticket names; hidden or strange files beside the prints, a warning",
        "Print again, or clear the folder.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Delivered)
        {
            if (subject.Ticket?.Prints.FirstOrDefault(p => p.FileName == take.FileName) is { } record && take.Figures!.Sha256 is { } sha && sha != record.AudioSha256)
            {
                yield return Found(take.Name, sha[..8], $"{take.FileName} holds other samples than the ticket says were printed.");
            }
        }

        if (subject.HasPrints && subject.Strangers.Count > 0)
        {
            yield return Found("", Words.Count(subject.Strangers.Count, "file"), $"Beside the prints lies what is none of them: {Show.Some([.. subject.Strangers.Select(Show.Name)])}.", Severity.Warning);
        }
    }
}
