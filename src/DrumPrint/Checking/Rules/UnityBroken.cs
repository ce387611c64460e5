using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Faders at unity do not give the rough.</summary>
internal sealed class UnityBroken : CheckRule
{
    public override Rule Rule { get; } = new(
        "H1",
        Severity.Fault,
        "The prints do not add up to the rough",
        "peak of the difference above −60 dBFS; from −100 dBFS on a warning",
        "Print all of them again in one go.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.Unity is { } unity && TakeFigures.Db(unity.LeftPeak) is > PassDb and var left)
        {
            yield return Found("", $"{Words.Number(left)} dBFS", $"All playing prints at unity less the rough leave {Words.Number(left)} dBFS; the files do not add up to it.", left > FailDb ? null : Severity.Warning);
        }
    }

    private const double PassDb = -100;
    private const double FailDb = -60;
}
