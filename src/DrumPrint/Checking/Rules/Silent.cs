using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file in which nothing is heard.</summary>
internal sealed class Silent : CheckRule
{
    public override Rule Rule { get; } = new(
        "D1",
        Severity.Fault,
        "Silent",
        "peak below −80 dBFS",
        "Find the sound, or take the file out of the set.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Takes.Where(t => t.Figures is not null && t.Figures.PeakDb < MostDb))
        {
            yield return Found(take.Name, take.Figures!.Peak == 0 ? "nothing at all" : $"{Words.Number(take.Figures.PeakDb)} dBFS", "Nothing is heard in the file.");
        }
    }

    private const double MostDb = -80;
}
