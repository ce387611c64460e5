using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file is at another sample rate than the session.</summary>
internal sealed class WrongRate : CheckRule
{
    public override Rule Rule { get; } = new(
        "A1",
        Severity.Fault,
        "Another sample rate",
        "any rate but the session's",
        "Bring the file at the session's rate, or add \"convert\": true to its track.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Takes.Where(t => t.Info is { } info && info.SampleRate != subject.RateHz && t.Kind != TakeKind.Impulse && t.Track?.Convert != true))
        {
            if (take.Kind == TakeKind.Reference)
            {
                yield return Found(take.Name, $"{take.Info!.SampleRate} Hz", $"The song's own mix is at {take.Info.SampleRate} Hz, and the session runs at {subject.RateHz} Hz; the bench plays without it.", Severity.Warning);
                continue;
            }

            yield return Found(take.Name, $"{take.Info!.SampleRate} Hz", $"The file is at {take.Info.SampleRate} Hz, and the session runs at {subject.RateHz} Hz; it would play at another pitch and pace.");
        }
    }
}
