using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file whose hits are not those of the kit.</summary>
internal sealed class WrongTake : CheckRule
{
    public override Rule Rule { get; } = new(
        "D5",
        Severity.Fault,
        "Another song or take",
        "under 0.3 of its loud hits heard by any overhead, while others reach 0.7",
        "Look whether the file belongs to this song and take.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        var overheads = subject.Raws.Where(t => t.Role == TakeRole.Overhead).ToList();
        if (overheads.Count == 0)
        {
            yield break;
        }

        var shares = subject.Raws.Where(t => t.IsClose && t.Figures!.Hits.Hits.Count >= Fewest).Select(t => (Take: t, Share: Heard(t, overheads))).ToList();
        foreach (var (take, share) in shares.Where(s => s.Share < Low && shares.Count(o => o.Share > High) * 2 > shares.Count))
        {
            yield return Found(take.Name, Words.Number(share, 2), $"The overheads hear {Words.Number(100 * share, 0)} % of the loud hits of this file; of most others they hear over 70 %.");
        }
    }

    private const int Fewest = 8;
    private const double Low = 0.3;
    private const double High = 0.7;
    private const double WithinS = 0.03;

    // What chance alone would give is taken off.
    private static double Heard(CheckedTake take, List<CheckedTake> overheads)
    {
        var mark = take.Figures!.Hits.Hits.Max(h => h.Level) / 4;
        var hits = take.Figures.Hits.Hits.Where(h => h.Level >= mark).Select(h => (double)h.Frame / take.Figures.RateHz).ToList();
        var times = overheads.SelectMany(o => o.Figures!.Hits.Hits.Concat(o.Figures.Hits.BrightHits).Select(h => (double)h.Frame / o.Figures.RateHz)).Order().ToList();
        var length = (double)take.Figures.Frames / take.Figures.RateHz;
        var heard = (double)hits.Count(h => Near(times, h)) / hits.Count;
        var chance = Math.Min(0.9, Enumerable.Range(0, 500).Count(i => Near(times, i * length / 500)) / 500.0);
        return Math.Max(0, (heard - chance) / (1 - chance));
    }

    private static bool Near(List<double> times, double at)
    {
        var next = times.BinarySearch(at - 0.005);
        next = next < 0 ? ~next : next;
        return next < times.Count && times[next] <= at + WithinS;
    }
}
