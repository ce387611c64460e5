using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file that starts or ends away from zero.</summary>
internal sealed class EdgeClick : CheckRule
{
    public override Rule Rule { get; } = new(
        "G1",
        Severity.Warning,
        "A click at the start or end",
        "first or last sample above −60 dBFS",
        "Add a fade of a few milliseconds.")
    {
        PictureS = 0.02,
    };

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds)
        {
            var (first, last) = (take.Figures!.Channels.Max(c => Math.Abs(c.First)), take.Figures.Channels.Max(c => Math.Abs(c.Last)));
            if (first > Most)
            {
                yield return Found(take.Name, $"{Words.Number(TakeFigures.Db(first))} dBFS", $"The first sample is at {Words.Number(TakeFigures.Db(first))} dBFS, which is heard as a click.") with { PlacesS = [0] };
            }

            if (last > Most)
            {
                yield return Found(take.Name, $"{Words.Number(TakeFigures.Db(last))} dBFS", $"The last sample is at {Words.Number(TakeFigures.Db(last))} dBFS, which is heard as a click.") with { PlacesS = [(double)take.Figures.Frames / take.Figures.RateHz] };
            }
        }
    }

    private const double Most = 0.001;
}
