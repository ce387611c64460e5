using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>The two microphones of a pair are brought in differently.</summary>
internal sealed class PairMismatch : CheckRule
{
    public override Rule Rule { get; } = new(
        "E6",
        Severity.Warning,
        "A pair at two levels",
        "the two of a pair fed at levels over 1 dB apart",
        "Feed both at one level.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var bus in subject.Chain?.Buses ?? [])
        {
            foreach (var (left, right) in subject.RawPairs)
            {
                var (a, b) = (bus.Feeds.FirstOrDefault(f => f.Source == left.Name), bus.Feeds.FirstOrDefault(f => f.Source == right.Name));
                var apart = a is null || b is null ? 0 : a.LevelDb + left.Track!.LevelDb - b.LevelDb - right.Track!.LevelDb;
                if (Math.Abs(apart) > MostDb)
                {
                    yield return Found(bus.Name, $"{Words.Number(Math.Abs(apart))} dB", $"{left.Name} is fed {Words.Number(Math.Abs(apart))} dB {(apart > 0 ? "louder" : "softer")} than {right.Name}.");
                }
            }
        }
    }

    private const double MostDb = 1;
}
