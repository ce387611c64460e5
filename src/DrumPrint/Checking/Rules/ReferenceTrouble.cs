using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>The mix that came along is no null partner.</summary>
internal sealed class ReferenceTrouble : CheckRule
{
    public override Rule Rule { get; } = new(
        "A9",
        Severity.Warning,
        "The reference mix lags or is lossy",
        "not PCM, or 500 to 2500 frames later than the sum of the prints",
        "Give the rough as WAV, exported in one go with the prints.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var name in subject.Strangers.Where(n => Lossy.Contains(Path.GetExtension(n).ToLowerInvariant())))
        {
            yield return Found(name, Path.GetExtension(name).TrimStart('.'), "The mix that lies beside the prints is in a lossy format; it can be listened to, and nulls against nothing.");
        }

        if (subject.Unity is { LagFrames: var lag } && Math.Abs(lag) is >= Least and <= Most)
        {
            yield return Found(subject.Measured(TakeKind.Rough).First().Name, $"{lag} frames", $"The rough is {lag} frames ({Words.Number(1000.0 * lag / subject.RateHz)} ms) later than the prints add up to; encoders add that much.");
        }
    }

    private const int Least = 500;
    private const int Most = 2500;
    private static readonly string[] Lossy = [".mp3", ".m4a", ".aac", ".ogg", ".opus", ".wma"];
}
