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
        "the 5 ms up to the peak of a hit over 1.5 dB softer behind the gate, on a tenth of its hits and more",
        "Add look-ahead, or shorten the attack.")
    {
        PictureS = 0.06,
    };

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var (gate, take) in GateHits.Gates(subject))
        {
            var hits = GateHits.Own(subject, gate, take).Where(h => GateHits.Passes(gate, h)).ToList();
            var chopped = hits.Where(h => Lost(gate, h) > MostDb).ToList();
            if (hits.Count >= 4 && chopped.Count * 10 >= hits.Count && chopped.Count > 1)
            {
                yield return Found(gate.Bus.Name, $"{chopped.Count} of {Words.Count(hits.Count, "hit")}", $"The 5 ms up to the peak of {chopped.Count} of {Words.Count(hits.Count, "hit")} are over {Words.Number(MostDb)} dB softer behind the gate.") with { Count = chopped.Count, PlacesS = chopped };
            }
        }
    }

    private const double MostDb = 1.5;
    private const int AttackMs = 5;
    private const int PeakWithinMs = 20;

    // What spills in before the drum speaks is no part of its attack: a kick a few milliseconds ahead is not to open the gate.
    private static double Lost(GateRecord gate, double atS)
    {
        var first = (int)(atS * 1000);
        var peak = Enumerable.Range(first, PeakWithinMs).Where(i => i < gate.Before.Length).DefaultIfEmpty(first).MaxBy(i => gate.Before.ElementAtOrDefault(i));
        var (fromS, toS) = ((peak - AttackMs + 1) / 1000.0, (peak + 1) / 1000.0);
        return TakeFigures.PowerDb(GateRecord.Power(gate.Before, fromS, toS)) - TakeFigures.PowerDb(GateRecord.Power(gate.After, fromS, toS));
    }
}
