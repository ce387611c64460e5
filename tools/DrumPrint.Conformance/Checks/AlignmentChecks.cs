using DrumPrint.Dsp.Tests.Alignment.Truth;

namespace DrumPrint.Conformance.Checks;

/// <summary>Delay and polarity of two microphones against invented scenes whose geometry is known.</summary>
internal static class AlignmentChecks
{
    public const string Note = "300 pairs in 100 invented scenes at 44.1 to 96 kHz: noise bursts, clicks, modes and played hits, another drum spilling by −3 to −20 dB, a cymbal on every beat, mirror sources and a diffuse tail. Right is a delay within 0.3 frames at 48 kHz for close pairs, 1 for overheads, 2 for rooms. `tools/DrumPrint.Conformance -- --alignment` shows the table by spill and distance.";

    private const string Geometry = "geometry at 343.2 m/s (ISO 9613-1); estimator: Knapp and Carter 1976";

    public static IEnumerable<Check> All() =>
    [
        new("alignment", "statements that are right, delays and polarities together", Geometry, Bar.AtLeast(99, "%", 1), RightPercent),
        new("alignment", "polarities told that are wrong", Geometry, Bar.Exactly(0, "pairs"), () => AlignmentTruth.All.Count(s => s.IsPolarityTold && !s.IsPolarityRight)),
        .. Enum.GetValues<TruthKind>().SelectMany(kind => new Check[]
        {
            new("alignment", $"{Name(kind)}: delays told that are right", Geometry, Bar.AtLeast(99, "%", 1), () => RightDelaysPercent(kind))
            {
                Missed = kind == TruthKind.Close ? "two microphones at one drum hear head and beater in two balances, which moves the phases by more than 0.3 frames in one pair of forty" : null,
            },
            new("alignment", $"{Name(kind)}: delays that cannot be told", Geometry, Bar.AtMost(20, "%", 1), () => UntoldPercent(kind, s => s.IsDelayTold)),
            new("alignment", $"{Name(kind)}: polarities that cannot be told", Geometry, Bar.AtMost(20, "%", 1), () => UntoldPercent(kind, s => s.IsPolarityTold)),
        }),
    ];

    private static string Name(TruthKind kind) => kind switch
    {
        TruthKind.Close => "close to close",
        TruthKind.Overhead => "close to overhead",
        _ => "close to room",
    };

    private static double RightPercent()
    {
        var told = AlignmentTruth.All.Count(s => s.IsDelayTold) + AlignmentTruth.All.Count(s => s.IsPolarityTold);
        var right = AlignmentTruth.All.Count(s => s.IsDelayTold && s.IsDelayRight) + AlignmentTruth.All.Count(s => s.IsPolarityTold && s.IsPolarityRight);
        return 100.0 * right / told;
    }

    private static double RightDelaysPercent(TruthKind kind)
    {
        var told = AlignmentTruth.All.Where(s => s.Kind == kind && s.IsDelayTold).ToList();
        return 100.0 * told.Count(s => s.IsDelayRight) / told.Count;
    }

    private static double UntoldPercent(TruthKind kind, Func<AlignmentTruth.Said, bool> isTold)
    {
        var pairs = AlignmentTruth.All.Where(s => s.Kind == kind).ToList();
        return 100.0 * pairs.Count(s => !isTold(s)) / pairs.Count;
    }
}
