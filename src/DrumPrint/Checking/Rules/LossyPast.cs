using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file that has been through a lossy format.</summary>
internal sealed class LossyPast : CheckRule
{
    public override Rule Rule { get; } = new(
        "A7",
        Severity.Warning,
        "Lossy ancestry",
        "a fall of 40 dB within 1 kHz somewhere from 15 to 20.5 kHz, in over 95 % of the loud places",
        "Ask for the recording before it was made small.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Takes.Where(t => (t.IsRaw || t.Kind is TakeKind.Rough or TakeKind.RoughWithBus) && t.Figures is { Peak: > 0.001, RateHz: >= 44100 }))
        {
            var spectrum = MeanSpectrum.Loud(take, subject.Windows, Places, Points);
            for (var edge = LowestHz; edge <= HighestHz && edge + 2500 < take.Figures!.RateHz / 2.0; edge += StepHz)
            {
                var cut = Enumerable.Range(0, spectrum.Places).Count(p => spectrum.LevelDb(p, edge - 1500, edge - 500) - spectrum.LevelDb(p, edge + 500, edge + 1500) > FallDb && spectrum.LevelDb(p, edge - 1500, edge - 500) > AudibleDb);
                if (spectrum.Places >= Fewest && cut > Share * spectrum.Places)
                {
                    yield return Found(take.Name, Words.Frequency(edge), $"All sound ends at {Words.Frequency(edge)}, as lossy formats leave it.");
                    break;
                }
            }
        }
    }

    private const int Places = 40;
    private const int Fewest = 8;
    private const int Points = 4096;
    private const double LowestHz = 15000;
    private const double HighestHz = 20500;
    private const double StepHz = 250;
    private const double FallDb = 40;
    private const double AudibleDb = -120;
    private const double Share = 0.95;
}
