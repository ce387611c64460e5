using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file whose header names the session's rate holds sound of another one.</summary>
internal sealed class WrongPace : CheckRule
{
    public override Rule Rule { get; } = new(
        "A2",
        Severity.Fault,
        "Right header, wrong pace",
        "length 0.91875, 1.08844, 0.5 or 2 times that of the others, within 0.05 %",
        "Play the recording again at its own rate, and convert it properly.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        var lengths = subject.HeadedRaws.Select(t => t.Info!.Frames).Where(f => f > 0).GroupBy(f => f).OrderByDescending(g => g.Count()).ToList();
        if (lengths.Count < 2 || lengths[0].Count() < 3)
        {
            yield break;
        }

        foreach (var take in subject.HeadedRaws)
        {
            var ratio = (double)take.Info!.Frames / lengths[0].Key;
            if (take.Info.SampleRate == subject.RateHz && Ratios.Any(r => Math.Abs((ratio / r) - 1) < Within))
            {
                yield return Found(take.Name, $"{Words.Number(ratio, 5)} times as long", $"The file is {Words.Number(ratio, 5)} times as long as the others, which is what a recording of another sample rate becomes when only its header is changed.");
            }
        }
    }

    public override IEnumerable<Finding> FindQuickly(CheckSubject subject) => Find(subject);

    private const double Within = 0.0005;
    private static readonly double[] Ratios = [0.91875, 1.0 / 0.91875, 0.5, 2];
}
