using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Spill that opens a gate.</summary>
internal sealed class FalseOpens : CheckRule
{
    public override Rule Rule { get; } = new(
        "G8",
        Severity.Information,
        "The gate opens for other drums",
        "over 5 % of its openings on hits of other drums",
        "Raise open_db, or narrow the key to the drum's body.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var (gate, take) in GateHits.Gates(subject))
        {
            var own = subject.Owners.Of(take).Select(h => (double)(h.Frame + subject.DelayFrames(take)) / take.Figures!.RateHz).ToList();
            var openings = gate.OpeningsS;
            var wrong = openings.Where(o => !own.Any(h => Math.Abs(h - o) < NearS)).ToList();
            if (openings.Count >= 4 && wrong.Count > Share * openings.Count)
            {
                yield return Found(gate.Bus.Name, $"{wrong.Count} of {Words.Count(openings.Count, "opening")}", $"The gate opens {openings.Count} times and is open {Words.Number(100 * gate.OpenShare, 0)} % of the time; {wrong.Count} of its openings are on nothing that {take.Name}'s drum plays.") with { Count = wrong.Count, PlacesS = wrong };
            }
        }
    }

    private const double NearS = 0.06;
    private const double Share = 0.05;
}
