using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A stereo file that loses its middle in mono.</summary>
internal sealed class SidesAgainst : CheckRule
{
    public override Rule Rule { get; } = new(
        "E4",
        Severity.Warning,
        "The sides work against each other",
        "correlation of left and right below −0.3",
        "Turn one side over.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Channels == 2 && t.Figures!.PeakDb > -60))
        {
            var (left, right, both) = take.Figures!.Sides;
            var correlation = left * right > 0 ? both / Math.Sqrt(left * right) : 0;
            if (correlation < Least)
            {
                yield return Found(take.Name, Words.Number(correlation, 2), $"Left and right are opposite more than alike (correlation {Words.Number(correlation, 2)}), so they cancel in mono.");
            }
        }
    }

    private const double Least = -0.3;
}
