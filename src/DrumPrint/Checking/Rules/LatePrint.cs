using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A print does not lie in time where its raw tracks say.</summary>
internal sealed class LatePrint : CheckRule
{
    public override Rule Rule { get; } = new(
        "B3",
        Severity.Fault,
        "A print is late against its input",
        "any whole frame for a print that is a plain sum; 0.25 ms for one with processors, whose phase moves a little",
        "Print the file again.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var (print, estimate) in PrintLags.Of(subject))
        {
            var most = BusTree.IsLinear(subject.Chain!, print.Print!.Bus) ? LinearFrames : ProcessedS * subject.RateHz;
            if (estimate.IsDelayKnown && Math.Abs(estimate.DelayFrames) > most)
            {
                yield return Found(print.Name, $"{Words.Number(estimate.DelayFrames)} frames", $"The print is {Words.Number(Math.Abs(estimate.DelayFrames))} frames ({Words.Number(Math.Abs(estimate.DelayMs), 2)} ms) {(estimate.DelayFrames > 0 ? "later" : "earlier")} than what it is made from.") with { Value = Math.Abs(estimate.DelayFrames) };
            }
        }
    }

    private const double LinearFrames = 0.5;
    private const double ProcessedS = 0.00025;
}
