using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A description without an example.</summary>
internal sealed class WithBusMissing : CheckRule
{
    public override Rule Rule { get; } = new(
        "H3",
        Severity.Warning,
        "The rough through the drum bus is missing",
        "a drum bus is described, and no rough through it lies beside the other",
        "Print it, so that the mixer hears what is described.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.HasPrints && subject.Chain is { DrumBus.Count: > 0 } && subject.Measured(TakeKind.Rough).Any() && !subject.Measured(TakeKind.RoughWithBus).Any())
        {
            yield return Found("", "not there", "The chain describes a drum bus, and there is no rough through it.");
        }
    }
}
