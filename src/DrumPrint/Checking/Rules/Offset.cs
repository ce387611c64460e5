using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file whose wave does not lie around zero.</summary>
internal sealed class Offset : CheckRule
{
    public override Rule Rule { get; } = new(
        "C8",
        Severity.Warning,
        "Offset (DC)",
        "mean of a file beyond 0.001, which is −60 dBFS",
        "Take the offset out with a high-pass at a few hertz.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Figures!.Channels.Any(c => Math.Abs(c.Mean) > Most)))
        {
            var mean = take.Figures!.Channels.MaxBy(c => Math.Abs(c.Mean))!.Mean;
            yield return Found(take.Name, Words.Number(mean, 4), $"The mean of the file is {Words.Number(mean, 4)} of full scale instead of 0.");
        }
    }

    private const double Most = 0.001;
}
