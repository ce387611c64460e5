using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Tests.Alignment.Truth;

namespace DrumPrint.Conformance.Checks;

/// <summary>What the estimator says of every pair of the truth set.</summary>
internal static class AlignmentTruth
{
    private const int Geometries = 100;
    private const double ReferenceHz = 48000;

    private static readonly Lazy<IReadOnlyList<Said>> Every = new(() =>
        [.. Enumerable.Range(0, Geometries).AsParallel().AsOrdered().Select(n => Scene(n).ToList()).SelectMany(s => s)]);

    public static IReadOnlyList<Said> All => Every.Value;

    public static IEnumerable<string> Table()
    {
        yield return "| pairs | number | delay told | right | polarity told | right | worst told delay, frames |";
        yield return "|---|---|---|---|---|---|---|";
        foreach (var (name, group) in Groups())
        {
            var worst = group.Where(s => s.IsDelayTold).Select(s => s.ErrorFrames).DefaultIfEmpty().Max();
            yield return FormattableString.Invariant(
                $"| {name} | {group.Count} | {group.Count(s => s.IsDelayTold)} | {group.Count(s => s.IsDelayTold && s.IsDelayRight)} | {group.Count(s => s.IsPolarityTold)} | {group.Count(s => s.IsPolarityTold && s.IsPolarityRight)} | {worst:0.00} |");
        }
    }

    private static IEnumerable<(string Name, List<Said> Group)> Groups()
    {
        yield return ("all", [.. All]);
        foreach (var group in All.GroupBy(s => s.Kind).OrderBy(g => g.Key))
        {
            yield return ($"{group.Key}", [.. group]);
        }

        foreach (var group in All.GroupBy(s => (s.SpillDb, s.Kind)).OrderBy(g => g.Key))
        {
            yield return (FormattableString.Invariant($"spill {group.Key.SpillDb} dB, {group.Key.Kind}"), [.. group]);
        }

        foreach (var group in All.GroupBy(s => s.Sound).OrderBy(g => g.Key))
        {
            yield return ($"{group.Key}", [.. group]);
        }
    }

    private static IEnumerable<Said> Scene(int number) => TruthScene.Pairs(number).Select(pair =>
    {
        var found = PairEstimator.Of(pair.Close, pair.Other, pair.RateHz);
        var error = Math.Abs(found.DelayFrames - pair.LagFrames) * ReferenceHz / pair.RateHz;
        return new Said(
            pair.Kind,
            pair.Sound,
            pair.SpillDb,
            found.IsDelayKnown,
            error,
            error <= pair.ToleranceFrames,
            found.Polarity != PairPolarity.CannotBeTold,
            (found.Polarity == PairPolarity.Opposite) == pair.IsInverted);
    });

    /// <summary>What was said of one pair.</summary>
    internal sealed record Said(
        TruthKind Kind,
        TruthSound Sound,
        double SpillDb,
        bool IsDelayTold,
        double ErrorFrames,
        bool IsDelayRight,
        bool IsPolarityTold,
        bool IsPolarityRight);
}
