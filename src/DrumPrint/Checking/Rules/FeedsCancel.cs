using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Microphones that are less together than apart.</summary>
internal sealed class FeedsCancel : CheckRule
{
    public override Rule Rule { get; } = new(
        "J4",
        Severity.Warning,
        "Feeds that cancel",
        "the sum of a drum's microphones 1.5 dB and more below the loudest of them alone, in the drum's band",
        "Try the polarity of one, or leave one out.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var group in DrumGroups.Of(subject))
        {
            var all = group.Energies.Energy(group.LowHz, group.HighHz, [.. Enumerable.Repeat(1, group.Takes.Count)]);
            var loudest = Enumerable.Range(0, group.Takes.Count).Max(i => group.Energies.Energy(group.LowHz, group.HighHz, [.. Enumerable.Range(0, group.Takes.Count).Select(j => j == i ? 1 : 0)]));
            var lost = TakeFigures.PowerDb(loudest / Math.Max(1e-30, all));
            if (lost >= LeastDb)
            {
                yield return Found(group.Bus.Name, $"−{Words.Number(lost)} dB", $"Together {Show.List([.. group.Takes.Select(t => t.Name)])} are {Words.Number(lost)} dB softer from {Words.Number(group.LowHz, 0)} to {Words.Number(group.HighHz, 0)} Hz than the loudest of them alone.");
            }
        }
    }

    private const double LeastDb = 1.5;
}
