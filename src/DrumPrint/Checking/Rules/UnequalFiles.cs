using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Files that do not start and end together.</summary>
internal sealed class UnequalFiles : CheckRule
{
    public override Rule Rule { get; } = new(
        "B1",
        Severity.Fault,
        "Another start or length",
        "any difference in frames, for raw files a warning; or in the start that broadcast files are stamped with",
        "Export all files from one start to one end.")
    {
        PictureS = 3,
    };

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var group in new[] { subject.HeadedRaws.ToList(), subject.Delivered.ToList() })
        {
            var usual = group.Select(Length).GroupBy(l => l).OrderByDescending(g => g.Count()).ThenByDescending(g => g.Key).FirstOrDefault()?.Key;
            foreach (var take in group.Where(t => Math.Abs(Length(t) - usual!.Value) > 1e-4))
            {
                yield return Found(take.Name, $"{Words.Number(Length(take), 3)} s", $"The file is {Words.Number(Length(take), 3)} s long, most others {Words.Number(usual!.Value, 3)} s.", take.IsRaw ? Severity.Warning : null) with { PlacesS = [Math.Min(Length(take), usual.Value)] };
            }

            var stamped = group.Where(t => t.Info!.Broadcast is not null).ToList();
            var start = stamped.Select(Start).GroupBy(s => s).OrderByDescending(g => g.Count()).FirstOrDefault()?.Key;
            foreach (var take in stamped.Where(t => Math.Abs(Start(t) - start!.Value) > 1e-4))
            {
                yield return Found(take.Name, $"{Words.Signed(Start(take) - start!.Value, 3)} s", $"The file is stamped to start {Words.Number(Math.Abs(Start(take) - start.Value), 3)} s {(Start(take) > start ? "after" : "before")} most others.");
            }
        }
    }

    public override IEnumerable<Finding> FindQuickly(CheckSubject subject) => Find(subject);

    private static double Length(CheckedTake take) => Math.Round((double)take.Info!.Frames / take.Info.SampleRate, 6);

    private static double Start(CheckedTake take) => Math.Round((double)take.Info!.Broadcast!.TimeReference / take.Info.SampleRate, 6);
}
