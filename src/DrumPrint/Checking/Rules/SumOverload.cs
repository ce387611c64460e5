using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Faders at unity run into full scale.</summary>
internal sealed class SumOverload : CheckRule
{
    public override Rule Rule { get; } = new(
        "C7",
        Severity.Warning,
        "The sum overloads",
        "peak of all playing prints at unity above 0 dBFS; from −3 dBFS on it is told",
        "Lower all prints by one trim.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.Unity is { } unity && TakeFigures.Db(unity.SumPeak) is > NearDb and var peak)
        {
            yield return Found("", $"{Words.Number(peak)} dBFS", peak > 0 ? $"With all faders at unity the sum peaks {Words.Number(peak)} dB above full scale." : $"With all faders at unity the sum peaks at {Words.Number(peak)} dBFS.", peak > 0 ? null : Severity.Information);
        }
    }

    private const double NearDb = -3;
}
