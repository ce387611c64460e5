using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Sound that stops as if it were cut.</summary>
internal sealed class AbruptStop : CheckRule
{
    public override Rule Rule { get; } = new(
        "G3",
        Severity.Fault,
        "An abrupt stop",
        "a fall of over 30 dB within 5 ms into near silence",
        "Put a fade there, or mend the edit.")
    {
        PictureS = 0.5,
    };

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Kind is not TakeKind.Click))
        {
            var places = Places(take.Figures!).ToList();
            if (places.Count > 0)
            {
                yield return Found(take.Name, Words.Count(places.Count, "stop"), $"The sound stops dead in {Words.Count(places.Count, "place")}.") with { Count = places.Count, PlacesS = places };
            }
        }
    }

    private const int FallMs = 5;
    private const int AfterMs = 20;
    private const double LoudPower = 1e-5; // −50 dBFS
    private const double QuietPower = 1e-9; // −90 dBFS
    private const double Fall = 1000; // 30 dB

    private static IEnumerable<double> Places(TakeFigures figures)
    {
        var powers = figures.MsPower;
        for (var i = FallMs; i + FallMs + AfterMs < powers.Length; i++)
        {
            if (powers[i - 1] > LoudPower && powers[i + FallMs] < powers[i - 1] / Fall && figures.Power((i + FallMs) / 1000.0, (i + FallMs + AfterMs) / 1000.0) < QuietPower)
            {
                yield return i / 1000.0;
                i += 50;
            }
        }
    }
}
