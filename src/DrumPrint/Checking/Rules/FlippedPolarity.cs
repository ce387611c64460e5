using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A microphone works against the others of its drum.</summary>
internal sealed class FlippedPolarity : CheckRule
{
    public override Rule Rule { get; } = new(
        "F1",
        Severity.Warning,
        "Polarity",
        "turning a microphone over gains 1.5 dB and more on its drum's hits (kick 40–250 Hz, snare 120–500 Hz, toms 60–300 Hz); or the two of a pair hear the snare opposite ways",
        "Set \"polarity\" of the track in the chain; your ears decide.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var group in DrumGroups.Of(subject))
        {
            var signs = Enumerable.Repeat(1, group.Takes.Count).ToArray();
            var now = group.Energies.Energy(group.LowHz, group.HighHz, signs);
            var (best, gain) = (-1, 0.0);
            for (var i = 1; i < signs.Length; i++)
            {
                signs[i] = -1;
                var gained = TakeFigures.PowerDb(group.Energies.Energy(group.LowHz, group.HighHz, signs) / Math.Max(1e-30, now));
                signs[i] = 1;
                (best, gain) = gained > gain ? (i, gained) : (best, gain);
            }

            if (gain >= LeastDb)
            {
                yield return Found(group.Takes[best].Name, $"{Words.Signed(gain)} dB", $"Turning {group.Takes[best].Name} over gains {Words.Number(gain)} dB from {Words.Number(group.LowHz, 0)} to {Words.Number(group.HighHz, 0)} Hz over {Words.Count(group.Energies.Hits, "hit")} in bus '{group.Bus.Name}'{(gain >= StrongDb ? ", which is plain" : "")}.") with { Value = gain };
            }
        }

        if (subject.First(TakeRole.Snare) is not { } snare)
        {
            yield break;
        }

        foreach (var (left, right) in subject.RawPairs)
        {
            var (a, b) = (subject.Pairs.Of(snare, left), subject.Pairs.Of(snare, right));
            var (one, two) = (Sign(a.Polarity, left), Sign(b.Polarity, right));
            if (one != 0 && two != 0 && one != two)
            {
                var odd = one < 0 ? left : right;
                yield return Found(odd.Name, "the opposite", $"{left.Name} and {right.Name} hear the snare opposite ways round; {odd.Name} is the one that differs from the snare's own microphone.");
            }
        }
    }

    private const double LeastDb = 1.5;
    private const double StrongDb = 3;

    private static int Sign(PairPolarity polarity, CheckedTake take)
    {
        var sign = polarity switch
        {
            PairPolarity.Same => 1,
            PairPolarity.Opposite => -1,
            _ => 0,
        };
        return take.Track?.IsInverted == true ? -sign : sign;
    }
}
