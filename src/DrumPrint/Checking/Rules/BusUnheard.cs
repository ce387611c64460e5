using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A sound that is made and given to nobody.</summary>
internal sealed class BusUnheard : CheckRule
{
    public override Rule Rule { get; } = new(
        "J2",
        Severity.Warning,
        "A bus reaches no print",
        "no way from the bus to a file",
        "Print it, feed it somewhere, or take it out of the chain.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.Chain is { } chain)
        {
            var heard = BusTree.Heard(chain);
            foreach (var bus in chain.Buses.Where(b => !heard.Contains(b.Name)))
            {
                yield return Found(bus.Name, "no way", "Nothing of this bus is heard in any file.");
            }
        }
    }
}
