using DrumPrint.Chains;
using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A microphone hears the drums as from another place than the one the chain gives it.</summary>
/// <remarks>The close microphone stands for its drum, from which it is a hand or two away. So a way that differs by less says nothing.</remarks>
internal sealed class MisplacedMicrophone : CheckRule
{
    private const double LeastM = 0.35;
    private const double LeastPart = 0.1;

    public override Rule Rule { get; } = new(
        "B9",
        Severity.Warning,
        "A microphone is not where the chain says",
        "the way that the sound of a drum takes differs by over 0.35 m, and by over a tenth, from the way between both places (at_m)",
        "Measure again and mend at_m, or move the file to where it was recorded.");

    /// <summary>Pairs of which both places are known: a close microphone, and one over the kit, in the room or at another drum.</summary>
    public static IEnumerable<(CheckedTake Close, CheckedTake Other)> Pairs(CheckSubject subject)
    {
        var placed = subject.Raws.Where(t => t.Track?.At is not null && t.Figures is not null).ToList();
        return placed.Where(t => t.IsClose).SelectMany(c => placed.Where(o => o.Role is TakeRole.Overhead or TakeRole.Room).Select(o => (c, o)));
    }

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        var ways = Pairs(subject).Select(p => Way.Of(subject, p.Close, p.Other)).OfType<Way>().ToList();
        var told = new HashSet<string>(StringComparer.Ordinal);
        foreach (var other in ways.GroupBy(w => w.Other.Name).Where(g => g.All(w => w.IsOff)))
        {
            told.Add(other.Key);
            yield return Told(other.First(), other.Key);
        }

        // Where each of the others fits some drum, it is the drum's own microphone.
        foreach (var close in ways.Where(w => !told.Contains(w.Other.Name)).GroupBy(w => w.Close.Name).Where(g => g.All(w => w.IsOff)))
        {
            yield return Told(close.First(), close.Key);
        }
    }

    private Finding Told(Way way, string track) => Found(
        track,
        $"{Words.Number(way.HeardM)} m",
        $"{way.Other.Name} hears {way.Close.Name} {Words.Number(way.HeardM)} m of air later, and by their places they are {Words.Number(way.SaidM)} m apart.") with
    {
        Value = Math.Abs(way.HeardM - way.SaidM),
    };

    private sealed record Way(CheckedTake Close, CheckedTake Other, double HeardM, double SaidM)
    {
        public bool IsOff => Math.Abs(HeardM - SaidM) > Math.Max(LeastM, LeastPart * SaidM);

        public static Way? Of(CheckSubject subject, CheckedTake close, CheckedTake other)
        {
            var estimate = subject.Pairs.Of(close, other);
            var metres = estimate.DelayFrames / estimate.RateHz * PathDelay.SpeedOfSound(subject.Chain!.Song.TemperatureC);
            return estimate.IsDelayKnown ? new Way(close, other, metres, close.Track!.At!.Value.To(other.Track!.At!.Value)) : null;
        }
    }
}
