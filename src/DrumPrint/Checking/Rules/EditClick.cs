using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A cut without a fade.</summary>
internal sealed class EditClick : CheckRule
{
    public override Rule Rule { get; } = new(
        "C11",
        Severity.Warning,
        "A click from an edit",
        "one step over 20 times those around it, and away from every hit",
        "Put a short fade across the cut.")
    {
        PictureS = 0.02,
    };

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.IsRaw))
        {
            var figures = take.Figures!;
            var hits = figures.Hits.Hits.Concat(figures.Hits.BrightHits).Select(h => h.Frame).Order().ToList();
            var apart = (long)(ApartS * figures.RateHz);
            var steps = figures.Channels.SelectMany(c => c.Steps).Where(s => s > apart && s < figures.Frames - apart && !IsNear(hits, s, apart)).Distinct().Order().ToList();
            if (steps.Count > 0)
            {
                yield return Found(take.Name, Words.Count(steps.Count, "step"), $"The wave jumps in {Words.Count(steps.Count, "place")} where nothing is hit.") with
                {
                    Count = steps.Count,
                    PlacesS = [.. steps.Select(s => (double)s / figures.RateHz)],
                };
            }
        }
    }

    private const double ApartS = 0.012;

    private static bool IsNear(List<long> hits, long frame, long apart)
    {
        var next = hits.BinarySearch(frame);
        next = next < 0 ? ~next : next;
        return (next < hits.Count && hits[next] - frame <= apart) || (next > 0 && frame - hits[next - 1] <= apart);
    }
}
