using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Every file has been brought to one peak.</summary>
internal sealed class NormalisedSet : CheckRule
{
    public override Rule Rule { get; } = new(
        "C5",
        Severity.Fault,
        "A normalised set",
        "over half of the files, and 3 at least, peak within 0.05 dB of one value",
        "Export again without normalising: the balance is lost.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var group in new[] { subject.Raws.ToList(), subject.Delivered.Where(t => t.Kind is TakeKind.Print or TakeKind.Extra).ToList() })
        {
            var peaks = group.Select(t => t.Figures!.PeakDb).Where(p => p > -60).ToList();
            foreach (var peak in peaks)
            {
                var alike = peaks.Count(p => p >= peak && p <= peak + (2 * WithinDb));
                if (alike >= Fewest && alike > group.Count / 2.0)
                {
                    yield return Found("", $"{alike} of {group.Count} at {Words.Number(peak, 2)} dBFS", $"{alike} of {group.Count} files peak at {Words.Number(peak, 2)} dBFS, so each was brought to one level and their balance is lost.");
                    break;
                }
            }
        }
    }

    private const double WithinDb = 0.05;
    private const int Fewest = 3;
}
