using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>The overheads do not hear the snare in the middle.</summary>
internal sealed class SnareOffCentre : CheckRule
{
    public override Rule Rule { get; } = new(
        "E5",
        Severity.Information,
        "The snare is off the middle of the overheads",
        "level on the snare differs by over 1.5 dB, or arrival by over 0.25 ms",
        "Fine where it is meant; else move one microphone next time.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.First(TakeRole.Snare) is not { } snare)
        {
            yield break;
        }

        foreach (var (left, right) in subject.RawPairs.Where(p => p.Left.Role == TakeRole.Overhead))
        {
            var (a, b) = (subject.Pairs.Of(snare, left), subject.Pairs.Of(snare, right));
            var apart = b.DelayFrames - a.DelayFrames;
            var hits = subject.Owners.Loud(snare).Select(h => (double)h.Frame / snare.Figures!.RateHz).ToList();
            var level = hits.Count == 0 ? 0 : TakeFigures.PowerDb(hits.Sum(h => left.Figures!.Power(h, h + 0.02)) / Math.Max(1e-12, hits.Sum(h => right.Figures!.Power(h, h + 0.02))));
            if ((a.IsDelayKnown && b.IsDelayKnown && Math.Abs(apart) is var frames && frames > 0.00025 * snare.Figures!.RateHz && frames < 0.002 * snare.Figures!.RateHz) || Math.Abs(level) > MostDb)
            {
                yield return Found(left.Name, $"{Words.Number(Math.Abs(apart))} frames, {Words.Number(Math.Abs(level))} dB", $"The snare is {Words.Number(Math.Abs(level))} dB {(level > 0 ? "louder" : "softer")} on the left than on the right, and {Words.Number(Math.Abs(apart))} frames {(apart > 0 ? "earlier" : "later")}.");
            }
        }
    }

    private const double MostDb = 1.5;
}
