using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Distance was taken out of the sound, or put in.</summary>
internal sealed class MovedRoom : CheckRule
{
    public override Rule Rule { get; } = new(
        "F5",
        Severity.Warning,
        "A room or overhead is moved",
        "any delay of a room, or of an overhead, in the chain",
        "Rooms are late because they are far away; leave them, or sign the delay off.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Raws.Where(t => t.Role is TakeRole.Room or TakeRole.Overhead && subject.Chain is not null && subject.OwnDelayFrames(t) > 0))
        {
            yield return Found(take.Name, $"{subject.OwnDelayFrames(take)} frames", $"The chain delays {take.Name} by {Words.Number(1000.0 * subject.OwnDelayFrames(take) / subject.RateHz, 2)} ms; everything else is heard against it.");
        }
    }
}
