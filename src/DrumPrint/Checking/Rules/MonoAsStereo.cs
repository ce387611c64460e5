using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A stereo file with one sound in it.</summary>
internal sealed class MonoAsStereo : CheckRule
{
    public override Rule Rule { get; } = new(
        "E1",
        Severity.Fault,
        "Mono delivered as stereo",
        "left less right below −80 dB; at the best gain below −50 dB it is a panned mono, a warning",
        "Deliver it as a mono file.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Channels == 2 && t.Figures!.Peak > 1e-4))
        {
            var (left, right, both) = take.Figures!.Sides;
            var plain = TakeFigures.PowerDb(Math.Max(0, left + right - (2 * both)) / Math.Max(1e-30, left + right));
            var best = left * right > 0 ? TakeFigures.PowerDb(Math.Max(1e-16, 1 - (both * both / left / right))) : 0;
            if (take.Figures.SidePeak == 0 || plain <= SameDb)
            {
                yield return Found(take.Name, take.Figures.SidePeak == 0 ? "both sides the same" : $"{Words.Number(plain)} dB", "Both sides of the stereo file hold the same sound.");
            }
            else if (best <= PannedDb && both > 0)
            {
                yield return Found(take.Name, $"{Words.Number(best)} dB", "The stereo file is one sound, louder on one side.", Severity.Warning);
            }
        }
    }

    private const double SameDb = -80;
    private const double PannedDb = -50;
}
