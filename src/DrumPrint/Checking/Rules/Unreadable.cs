using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file that is broken or cut short.</summary>
internal sealed class Unreadable : CheckRule
{
    public override Rule Rule { get; } = new(
        "A8",
        Severity.Fault,
        "Cannot be read",
        "the file does not open, or ends before its header says",
        "Ask for the file again.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Takes.Where(t => t.Problem is not null && !t.IsMissing))
        {
            yield return Found(take.Name, "not readable", take.Problem!, take.Kind == TakeKind.Reference ? Severity.Warning : null);
        }
    }
}
