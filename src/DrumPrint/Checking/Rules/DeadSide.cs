using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A stereo file with one side missing.</summary>
internal sealed class DeadSide : CheckRule
{
    public override Rule Rule { get; } = new(
        "E2",
        Severity.Fault,
        "One side is dead",
        "sides differ by over 30 dB, or one stays below −80 dBFS",
        "Look for the cable, or deliver it as a mono file.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Channels == 2 && t.Figures!.PeakDb > SilentDb))
        {
            var (left, right, _) = take.Figures!.Sides;
            var apart = TakeFigures.PowerDb(left) - TakeFigures.PowerDb(right);
            var isPanned = take.Print is { } print && subject.Chain!.Buses.First(b => b.Name == print.Bus).Feeds.All(f => Math.Abs(f.PanPct ?? 0) == 100 && Math.Sign(f.PanPct ?? 0) == Math.Sign(apart) * -1);
            if (Math.Abs(apart) > MostDb && !isPanned)
            {
                yield return Found(take.Name, double.IsFinite(apart) ? $"{Words.Number(Math.Abs(apart))} dB" : "nothing at all", $"The {(apart > 0 ? "right" : "left")} side is {(double.IsFinite(apart) ? $"{Words.Number(Math.Abs(apart))} dB softer than the other" : "silent")}.");
            }
        }
    }

    private const double MostDb = 30;
    private const double SilentDb = -80;
}
