using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;

namespace DrumPrint.Checking.Rules;

/// <summary>Hits of the drum a gate stands at, as it hears them.</summary>
internal static class GateHits
{
    /// <summary>By how much a hit may be softer behind a gate without being lost.</summary>
    public const double MostLostDb = 12;

    private const double BodyS = 0.02;
    private const double BeforeS = 0.04;

    /// <summary>Gates of close microphones, each with the one its hits are taken from.</summary>
    public static IEnumerable<(GateRecord Gate, CheckedTake Take)> Gates(CheckSubject subject) => subject.Gates
        .Where(g => g.Stage.Settings[Dsp.Processors.Gate.Action] == "gate")
        .Select(g => (g, Take: g.Tracks.Select(t => subject.RawsByName.GetValueOrDefault(t)).OfType<CheckedTake>().Where(t => t is { IsClose: true, Figures: not null }).OrderBy(t => t.Role is TakeRole.SnareUnder or TakeRole.TomUnder).FirstOrDefault()))
        .Where(g => g.Take is not null)
        .Select(g => (g.g, g.Take!));

    /// <summary>Times at which its own drum is hit, in seconds.</summary>
    public static IReadOnlyList<double> Own(CheckSubject subject, GateRecord gate, CheckedTake take) =>
        [.. subject.Owners.Of(take).Select(h => (double)(h.Frame + subject.DelayFrames(take)) / take.Figures!.RateHz).Where(t => AboveBleedDb(gate, t) >= 10)];

    /// <summary>By how much a hit stands above what was there just before.</summary>
    public static double AboveBleedDb(GateRecord gate, double atS) =>
        TakeFigures.PowerDb(GateRecord.Power(gate.Before, atS, atS + BodyS)) - TakeFigures.PowerDb(GateRecord.Power(gate.Before, atS - BeforeS - 0.002, atS - 0.002));

    /// <summary>By how much a hit is softer behind the gate.</summary>
    public static double LostDb(GateRecord gate, double atS) =>
        TakeFigures.PowerDb(GateRecord.Power(gate.Before, atS, atS + BodyS)) - TakeFigures.PowerDb(GateRecord.Power(gate.After, atS, atS + BodyS));

    /// <summary>Those of some hits that are lost in it.</summary>
    public static List<double> Lost(GateRecord gate, IEnumerable<double> hits) => [.. hits.Where(h => LostDb(gate, h) > MostLostDb)];

    /// <summary>Whether a hit opens it.</summary>
    public static bool Passes(GateRecord gate, double atS) => LostDb(gate, atS) < 3;
}
