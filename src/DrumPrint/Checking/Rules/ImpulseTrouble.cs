using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>An impulse response that adds more than a room.</summary>
internal sealed class ImpulseTrouble : CheckRule
{
    public override Rule Rule { get; } = new(
        "G9",
        Severity.Warning,
        "An impulse is not clean",
        "another rate than the session's; an offset; over 1 ms of silence before the first sound, told only; an end above −60 dB against its peak",
        "Trim the impulse, or bring it at the session's rate.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Measured(TakeKind.Impulse))
        {
            var figures = take.Figures!;
            if (take.Info!.SampleRate != subject.RateHz)
            {
                yield return Found(take.Name, $"{take.Info.SampleRate} Hz", $"The impulse is at {take.Info.SampleRate} Hz and is resampled to {subject.RateHz} Hz.", Severity.Information);
            }

            if (figures.Channels.Any(c => Math.Abs(c.Mean) > MostOffset))
            {
                yield return Found(take.Name, "offset", "The impulse has an offset, which would add a step to every hit.");
            }

            var first = Array.FindIndex(figures.MsPower, p => p > figures.Peak * figures.Peak * 1e-6);
            if (first > 1)
            {
                yield return Found(take.Name, $"{first} ms", $"The impulse begins with {first} ms of silence, which delays everything it answers.", Severity.Information);
            }

            var end = figures.MsPower.Length / 1000.0;
            if (TakeFigures.PowerDb(figures.Power(end - 0.01, end)) - figures.PeakDb > EndDb)
            {
                yield return Found(take.Name, $"{Words.Number(TakeFigures.PowerDb(figures.Power(end - 0.01, end)) - figures.PeakDb)} dB", "The impulse ends before it has died away.");
            }
        }
    }

    private const double MostOffset = 0.001;
    private const double EndDb = -60;
}
