using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Two recordings run at slightly different speeds.</summary>
internal sealed class Drift : CheckRule
{
    public override Rule Rule { get; } = new(
        "B4",
        Severity.Fault,
        "Drift",
        "the distance of two microphones changes by over 1 frame from the first quarter to the last",
        "Record both on one clock; else resample the one that runs apart.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.First(TakeRole.Snare) is not { } snare)
        {
            yield break;
        }

        foreach (var other in subject.Raws.Where(t => t.Role is TakeRole.Overhead or TakeRole.Kit or TakeRole.Room && t.Figures!.RateHz == subject.RateHz))
        {
            var hits = subject.Owners.Of(snare);
            var end = snare.Figures!.Frames;
            var first = At(subject, snare, other, [.. hits.Where(h => h.Frame < end / 4)]);
            var last = At(subject, snare, other, [.. hits.Where(h => h.Frame > end * 3 / 4)]);
            var moved = last.DelayFrames - first.DelayFrames;
            if (first.IsDelayKnown && last.IsDelayKnown && Math.Abs(moved) > MostFrames + first.SpreadFrames + last.SpreadFrames)
            {
                yield return Found(other.Name, $"{Words.Number(moved)} frames", $"{other.Name} moves by {Words.Number(moved)} frames against {snare.Name} from the start of the song to its end.");
            }
        }
    }

    private const double MostFrames = 1;

    private static PairEstimate At(CheckSubject subject, CheckedTake close, CheckedTake other, IReadOnlyList<Hit> hits) => PairEstimator.Of(
        new HitTimes(hits, []), subject.Windows.Middle(close), subject.Windows.Middle(other), subject.RateHz, new AlignmentSearch { MostHits = 24, LatestMs = 50 });
}
