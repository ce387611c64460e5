using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file that wastes its word length.</summary>
internal sealed class TooQuiet : CheckRule
{
    public override Rule Rule { get; } = new(
        "C4",
        Severity.Warning,
        "Too quiet",
        "peak below −36 dBFS",
        "Record or print it louder.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Figures!.PeakDb is < LeastDb and >= SilentDb))
        {
            yield return Found(take.Name, $"{Words.Number(take.Figures!.PeakDb)} dBFS", $"The loudest sample is at {Words.Number(take.Figures.PeakDb)} dBFS.");
        }
    }

    private const double LeastDb = -36;
    private const double SilentDb = -80;
}
