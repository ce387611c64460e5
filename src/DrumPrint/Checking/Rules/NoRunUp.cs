using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file begins with its first sound.</summary>
internal sealed class NoRunUp : CheckRule
{
    public override Rule Rule { get; } = new(
        "B5",
        Severity.Warning,
        "No run-up",
        "the first hit less than 100 ms after the start of the file",
        "Export again from a bar earlier.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.IsExcerpt)
        {
            yield break;
        }

        foreach (var take in subject.Sounds.Where(t => t.Figures!.Peak > 1e-4 && t.Info!.Frames > t.Info.SampleRate))
        {
            var first = take.Figures!.Hits.Hits.Select(h => (double)h.Frame / take.Figures.RateHz).DefaultIfEmpty(double.PositiveInfinity).First();
            if (first < LeastS)
            {
                yield return Found(take.Name, $"{Words.Number(1000 * first, 0)} ms", $"The first hit comes {Words.Number(1000 * first, 0)} ms after the file starts, so its attack may be cut.") with { PlacesS = [first] };
            }
        }
    }

    private const double LeastS = 0.1;
}
