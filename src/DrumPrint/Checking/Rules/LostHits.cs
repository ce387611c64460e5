using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Processors;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Soft strokes that do not open the gate.</summary>
internal sealed class LostHits : CheckRule
{
    public override Rule Rule { get; } = new(
        "G7",
        Severity.Warning,
        "Hits are lost in the gate",
        "hits 10 dB and more above what was there just before that are over 12 dB softer behind the gate",
        "Lower open_db; where soft hits are meant to stay in the shadow, sign it off.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var (gate, take) in GateHits.Gates(subject))
        {
            var own = GateHits.Own(subject, gate, take);
            var lost = GateHits.Lost(gate, own);
            if (lost.Count > 0)
            {
                var open = Words.Number(gate.Stage.Settings[Gate.Open], 0);
                yield return Found(gate.Bus.Name, $"{lost.Count} of {Words.Count(own.Count, "hit")}, {Words.Count(Ghosts(gate, own, lost), "ghost")}", $"{Words.Count(lost.Count, "hit")} of {own.Count} of {take.Name} {(lost.Count == 1 ? "does" : "do")} not open the gate at {open} dB and {(lost.Count == 1 ? "stays" : "stay")} over {Words.Number(MostDb, 0)} dB down{BySection(subject, lost)}.") with { Count = lost.Count, PlacesS = lost, Value = lost.Count };
            }
        }
    }

    private const double MostDb = GateHits.MostLostDb;
    private const double GhostDb = 12;
    private const int Loud = 2; // the third loudest, so that one accident does not set it

    // Soft strokes among the lost: well below the loud ones.
    private static int Ghosts(GateRecord gate, IReadOnlyList<double> own, List<double> lost)
    {
        double Level(double atS) => TakeFigures.PowerDb(GateRecord.Power(gate.Before, atS, atS + 0.02));
        var loud = own.Select(Level).OrderDescending().ElementAtOrDefault(Math.Min(Loud, own.Count - 1));
        return lost.Count(h => Level(h) < loud - GhostDb);
    }

    // Where most of them are, in the order of the song.
    private static string BySection(CheckSubject subject, List<double> lost)
    {
        if (subject.Tempo is not { Sections.Count: > 1 } tempo)
        {
            return "";
        }

        var sections = lost.GroupBy(at => tempo.Sections.LastOrDefault(s => s.FromBar <= tempo.BarAtSeconds(at))?.Name ?? "").Where(g => g.Key.Length > 0).Select(g => $"{g.Count()} in {Show.Name(g.Key)}").ToList();
        return sections.Count == 0 ? "" : $": {Show.List(sections)}";
    }
}
