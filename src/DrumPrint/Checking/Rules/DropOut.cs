using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A hole in a recording.</summary>
internal sealed class DropOut : CheckRule
{
    public override Rule Rule { get; } = new(
        "C10",
        Severity.Warning,
        "A drop-out",
        "exact zeros for 10 ms and more inside a raw recording, with sound on both sides",
        "Ask for the passage again, or for another take of it.")
    {
        PictureS = 3,
    };

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Raws.Where(t => t.Figures!.Peak > 1e-4))
        {
            var figures = take.Figures!;
            var holes = figures.Channels.SelectMany(c => c.Zeros).Where(z => z.Frame > 0 && z.Frame + z.Frames < figures.Frames && Before(figures, z) && After(figures, z)).OrderBy(z => z.Frame).ToList();
            if (holes.Count == 0)
            {
                continue;
            }

            var share = (double)holes.Sum(h => h.Frames) / figures.Frames / figures.Channels.Count;
            var isEdited = share > EditedShare;
            yield return Found(
                take.Name,
                $"{Words.Count(holes.Count, "hole")}, {Words.Number((double)holes.Max(h => h.Frames) / figures.RateHz, 2)} s the longest",
                isEdited ? $"{Words.Number(100 * share, 0)} % of the recording is exact silence, as if it had been cut between hits." : $"The recording falls to exact silence for {Words.Number((double)holes.Max(h => h.Frames) / figures.RateHz, 2)} s where its microphone should go on hearing the kit.",
                isEdited ? Severity.Information : null) with
            {
                Count = holes.Count,
                PlacesS = [.. holes.Select(h => (double)h.Frame / figures.RateHz)],
            };
        }
    }

    private const double EditedShare = 0.3;
    private const double SideS = 0.2;

    private static bool Before(TakeFigures figures, Stretch hole)
    {
        var at = (double)hole.Frame / figures.RateHz;
        return figures.Power(at - SideS, at) > 0;
    }

    private static bool After(TakeFigures figures, Stretch hole)
    {
        var at = (double)(hole.Frame + hole.Frames) / figures.RateHz;
        return figures.Power(at, at + SideS) > 0;
    }
}
