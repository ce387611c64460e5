using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A dry sound and a late copy of it cancel at regular distances.</summary>
internal sealed class ParallelComb : CheckRule
{
    public override Rule Rule { get; } = new(
        "F3",
        Severity.Fault,
        "A comb from a parallel path",
        "a print later than its input by 12 frames and more, while its raw tracks are heard in other prints too",
        "Print the file again in time.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var (print, estimate) in PrintLags.Of(subject))
        {
            var late = Math.Abs(estimate.DelayFrames);
            if (estimate.IsDelayKnown && late >= LeastFrames && Parallel.IsParallel(subject.Chain!, print.Print!))
            {
                yield return Found(print.Name, $"notch at {Words.Frequency(subject.RateHz / 2.0 / late)}", $"The print lies {Words.Number(late)} frames beside the dry sound, which makes notches at {Words.Frequency(subject.RateHz / 2.0 / late)} and its odd multiples.") with { Value = subject.RateHz / 2.0 / late };
            }
        }
    }

    private const double LeastFrames = 12;
}
