using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file that hardly ever sounds.</summary>
internal sealed class NearlyEmpty : CheckRule
{
    public override Rule Rule { get; } = new(
        "D2",
        Severity.Information,
        "Nearly empty",
        "above −60 dBFS for less than 1 % of the song",
        "Fine for a tom or an overdub; else look whether the right file is there.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Figures is { PeakDb: >= -80, MsPower.Length: > 5000 }))
        {
            var blocks = take.Figures!.Powers(50).ToList();
            var share = (double)blocks.Count(p => p > LeastPower) / blocks.Count;
            if (share < LeastShare)
            {
                yield return Found(take.Name, $"{Words.Number(100 * share, 2)} %", $"The file sounds for {Words.Number(100 * share, 2)} % of its length.");
            }
        }
    }

    private const double LeastPower = 1e-6;
    private const double LeastShare = 0.01;
}
