using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>The gate opens after the hit has begun.</summary>
internal sealed class ChoppedAttack : CheckRule
{
    public override Rule Rule { get; } = new(
        "G5",
        Severity.Warning,
        "The gate chops attacks",
        "the first 5 ms of a hit over 1.5 dB softer behind the gate, on a tenth of its hits and more",
        "Add look-ahead, or shorten the attack.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var (gate, take) in GateHits.Gates(subject))
        {
            var hits = GateHits.Own(subject, gate, take).Where(h => GateHits.Passes(gate, h)).ToList();
            var chopped = hits.Where(h => Lost(gate, h) > MostDb).ToList();
            if (hits.Count >= 4 && chopped.Count * 10 >= hits.Count && chopped.Count > 1)
            {
                yield return Found(gate.Bus.Name, $"{chopped.Count} of {Words.Count(hits.Count, "hit")}", $"The first 5 ms of {chopped.Count} of {Words.Count(hits.Count, "hit")} are over {Words.Number(MostDb)} dB softer behind the gate.") with { Count = chopped.Count, PlacesS = chopped };
            }
        }
    }

    private const double MostDb = 1.5;

    private static double Lost(GateRecord gate, double atS) =>
        TakeFigures.PowerDb(GateRecord.Power(gate.Before, atS, atS + 0.005)) - TakeFigures.PowerDb(GateRecord.Power(gate.After, atS, atS + 0.005));
}
