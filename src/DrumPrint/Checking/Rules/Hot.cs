using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file with no room left.</summary>
internal sealed class Hot : CheckRule
{
    public override Rule Rule { get; } = new(
        "C3",
        Severity.Warning,
        "Hot",
        "sample peak above −1 dBFS, or true peak above 0 dBTP (ITU-R BS.1770)",
        "Turn it down by a few decibels.")
    {
        PictureS = 0.02,
    };

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Figures!.PeakDb > SampleDb || t.Figures.TruePeakDb > 0))
        {
            yield return Found(take.Name, $"{Words.Number(take.Figures!.PeakDb)} dBFS, {Words.Number(take.Figures.TruePeakDb)} dBTP", $"The peak is {Words.Number(take.Figures.PeakDb)} dBFS and, between the samples, {Words.Number(take.Figures.TruePeakDb)} dBTP; there is no room left.") with
            {
                PlacesS = [(double)take.Figures.Channels.MaxBy(c => c.Peak)!.PeakFrame / take.Figures.RateHz],
            };
        }
    }

    private const double SampleDb = -1;
}
