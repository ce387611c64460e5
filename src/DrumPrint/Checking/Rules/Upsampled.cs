using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file at a high rate that holds nothing a lower one could not.</summary>
internal sealed class Upsampled : CheckRule
{
    public override Rule Rule { get; } = new(
        "A3",
        Severity.Warning,
        "Upsampled",
        "rate from 88.2 kHz on, and less than −100 dB above 22.05 or 24 kHz against what lies below",
        "Ask for the recording at its own rate.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Raws.Where(t => t.Info!.SampleRate >= 88200 && t.Figures!.Peak > 0.001))
        {
            var spectrum = MeanSpectrum.Loud(take, subject.Windows, Places, Points);
            foreach (var edge in Edges)
            {
                var (below, above) = (spectrum.LevelDb(edge * 0.8, edge * 0.95), spectrum.LevelDb(edge * 1.05, take.Info!.SampleRate * 0.48));
                if (above - spectrum.LevelDb(100, edge * 0.95) < -100 && below - above > SteepDb)
                {
                    yield return Found(take.Name, $"{Words.Number(above - spectrum.LevelDb(100, edge * 0.95))} dB", $"Nothing is left above {Words.Frequency(edge)}, so the file was recorded at half its rate and converted up.");
                    break;
                }
            }
        }
    }

    private const int Places = 24;
    private const int Points = 8192;
    private const double SteepDb = 20;
    private static readonly double[] Edges = [22050, 24000];
}
