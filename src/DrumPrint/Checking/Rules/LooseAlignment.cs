using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>An alignment that fits some hits and not others.</summary>
internal sealed class LooseAlignment : CheckRule
{
    public override Rule Rule { get; } = new(
        "F6",
        Severity.Information,
        "A delay that the hits do not agree on",
        "a delay in the chain, while single hits differ by over 12 frames",
        "Do not trust a number here; choose by ear.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var group in DrumGroups.Of(subject))
        {
            foreach (var take in group.Takes.Where(t => subject.OwnDelayFrames(t) > 0))
            {
                var other = group.Takes.FirstOrDefault(t => t != take && subject.OwnDelayFrames(t) == 0);
                var estimate = other is null ? null : subject.Pairs.Of(take, other);
                if (estimate is { Hits: >= 8, Confidence: >= 0.25 } && double.IsFinite(estimate.SpreadFrames) && estimate.SpreadFrames > MostFrames)
                {
                    yield return Found(take.Name, $"{Words.Number(estimate.SpreadFrames)} frames", $"The hits of {take.Name} and {other!.Name} differ by {Words.Number(estimate.SpreadFrames)} frames, so no one delay fits.");
                }
            }
        }
    }

    private const double MostFrames = 12;
}
