using DrumPrint.Audio;
using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A float file that would clip on conversion.</summary>
internal sealed class FloatOvers : CheckRule
{
    public override Rule Rule { get; } = new(
        "A6",
        Severity.Warning,
        "Above full scale in a float file",
        "peak of a 32-bit float file above 0 dBFS",
        "Turn it down before it is written as integers.")
    {
        PictureS = 0.02,
    };

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Info!.Encoding.IsFloat() && t.Figures!.Peak > 1))
        {
            yield return Found(take.Name, $"{Words.Signed(take.Figures!.PeakDb)} dBFS", $"The file goes {Words.Number(take.Figures.PeakDb)} dB above full scale; that is safe while it stays float, and clips once it is converted.") with { PlacesS = [(double)take.Figures.Channels.MaxBy(c => c.Peak)!.PeakFrame / take.Figures.RateHz] };
        }
    }
}
