using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file that takes 24 bits to hold 16.</summary>
internal sealed class PaddedDepth : CheckRule
{
    public override Rule Rule { get; } = new(
        "A4",
        Severity.Warning,
        "16 bit in a 24-bit file",
        "the lowest 8 bits zero in over 99.9 % of all samples",
        "Ask for the recording with all its bits; nothing is lost by going on.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Figures!.PaddedShare > Share))
        {
            yield return Found(take.Name, $"{Words.Number(100 * take.Figures!.PaddedShare, 2)} %", "The lowest 8 of 24 bits are empty, so the sound has been through 16 bits.");
        }
    }

    private const double Share = 0.999;
}
