using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A raw file does not lie in time where its microphone stood.</summary>
internal sealed class SlippedTrack : CheckRule
{
    public override Rule Rule { get; } = new(
        "B2",
        Severity.Warning,
        "A microphone has slipped",
        "the two of a pair apart by over 2 ms on the snare; a microphone of the kit earlier than sound can be, or over 10 ms behind a close one (rooms 60 ms)",
        "Move the file to where it was recorded, or say its delay in the chain.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.First(TakeRole.Snare) is not { } snare)
        {
            yield break;
        }

        foreach (var (left, right) in subject.RawPairs)
        {
            var (a, b) = (subject.Pairs.Of(snare, left), subject.Pairs.Of(snare, right));
            var apart = b.DelayFrames - a.DelayFrames;
            if (a.IsDelayKnown && b.IsDelayKnown && Math.Abs(apart) > PairS * subject.RateHz)
            {
                var late = apart > 0 ? right : left;
                yield return Found(late.Name, $"{Words.Number(Math.Abs(apart), 1)} frames", $"{right.Name} hears the snare {Words.Number(Math.Abs(apart))} frames ({Words.Number(1000 * Math.Abs(apart) / subject.RateHz)} ms) {(apart > 0 ? "later" : "earlier")} than {left.Name}; the two of a pair are not {Words.Number(343.2 * Math.Abs(apart) / subject.RateHz)} m apart.", Math.Abs(apart) > FarS * subject.RateHz ? Severity.Fault : null) with { Value = Math.Abs(apart) };
            }
        }

        var told = subject.RawPairs.SelectMany(p => new[] { p.Left, p.Right }).ToHashSet();
        foreach (var other in subject.Raws.Where(t => t.Role is TakeRole.Overhead or TakeRole.Room && !told.Contains(t)))
        {
            var e = subject.Pairs.Of(snare, other);
            var most = other.Role == TakeRole.Room ? RoomS : OverheadS;
            if (e.IsDelayKnown && (e.DelayFrames < -EarlyS * subject.RateHz || e.DelayFrames > most * subject.RateHz))
            {
                yield return Found(other.Name, $"{Words.Number(e.DelayMs)} ms", $"{other.Name} hears the snare {Words.Number(Math.Abs(e.DelayMs))} ms {(e.DelayFrames < 0 ? "before" : "after")} its own microphone, which is {Words.Number(Math.Abs(e.DistanceM))} m.", Math.Abs(e.DelayMs) > 1000 * FarS * 6 ? Severity.Fault : null);
            }
        }

        foreach (var (left, right) in subject.RawPairs)
        {
            var (a, b) = (subject.Pairs.Of(snare, left), subject.Pairs.Of(snare, right));
            var most = left.Role == TakeRole.Room ? RoomS : OverheadS;
            if (a.IsDelayKnown && b.IsDelayKnown && Math.Min(a.DelayFrames, b.DelayFrames) > most * subject.RateHz)
            {
                yield return Found(left.Name, $"{Words.Number(a.DelayMs)} ms", $"{left.Name} and {right.Name} hear the snare {Words.Number(a.DelayMs)} ms late, which is {Words.Number(a.DistanceM)} m.");
            }
        }
    }

    private const double PairS = 0.002;
    private const double FarS = 0.010;
    private const double OverheadS = 0.010;
    private const double RoomS = 0.060;
    private const double EarlyS = 0.001;
}
