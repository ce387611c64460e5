using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Nobody knows how loud a centred mono file should be.</summary>
internal sealed class PanLawUnknown : CheckRule
{
    public override Rule Rule { get; } = new(
        "H2",
        Severity.Fault,
        "The pan law is not stated",
        "mono prints beside a rough, and neither chain nor ticket",
        "Keep the ticket with the prints; it says what a centred mono file is meant to lose.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.HasPrints && subject.Chain is null && subject.Ticket is null && subject.Measured(TakeKind.Print).Any(t => t.Info!.Channels == 1) && subject.Measured(TakeKind.Rough).Any())
        {
            yield return Found("", "no ticket", "The set holds mono files, and nothing beside them says by how much a mixer lowers them in the middle.");
        }
    }
}
