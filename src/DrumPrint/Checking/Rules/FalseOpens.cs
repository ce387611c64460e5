using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Processors;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Hits of other drums that a gate lets through.</summary>
internal sealed class FalseOpens : CheckRule
{
    private const double Half = 0.5;
    private const int LeastPart = 20; // of its openings: 5 %

    // The gain is the lowest of 10 ms, so a window that is open begins up to some 30 ms after the hit; look-ahead opens before it.
    private const double AfterHitS = 0.04;
    private const double BeforeHitS = 0.02;

    public override Rule Rule { get; } = new(
        "G8",
        Severity.Information,
        "Spill opens the gate",
        "over 5 % of a gate's openings at hits of another drum alone",
        "Raise open_db, or narrow what the gate listens to with its key filters.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var (gate, take) in GateHits.Gates(subject))
        {
            var own = Hits(subject, take);
            var others = subject.Raws
                .Where(t => t.IsClose && t.Figures is not null && HitOwners.Drum(t) != HitOwners.Drum(take))
                .GroupBy(HitOwners.Drum, StringComparer.Ordinal)
                .Select(d => (Drum: d.Key, Hits: d.Select(t => Hits(subject, t)).MaxBy(h => h.Count)!))
                .ToList();
            List<double> openings = [.. Enumerable.Range(1, Math.Max(0, gate.Gains.Length - 1)).Where(i => gate.Gains[i] >= Half && gate.Gains[i - 1] < Half).Select(i => i / 100.0)];
            var through = openings
                .Where(o => !IsNear(own, o))
                .Select(o => (At: o, others.FirstOrDefault(d => IsNear(d.Hits, o)).Drum))
                .Where(o => o.Drum is not null)
                .ToList();
            if (through.Count * LeastPart > openings.Count)
            {
                var drums = through.CountBy(o => o.Drum).OrderByDescending(d => d.Value).ThenBy(d => d.Key, StringComparer.Ordinal).Select(d => FormattableString.Invariant($"{d.Value} for {d.Key}"));
                yield return Found(gate.Bus.Name, $"{through.Count} of {Words.Count(openings.Count, "opening")}", $"The gate at {Words.Number(gate.Stage.Settings[Gate.Open], 0)} dB opens {Words.Count(through.Count, "time")} of {openings.Count} for a drum that is not {take.Name}: {Show.List([.. drums])}.") with
                {
                    Count = through.Count,
                    PlacesS = [.. through.Select(o => o.At)],
                    Value = through.Count,
                };
            }
        }
    }

    private static List<double> Hits(CheckSubject subject, CheckedTake take) =>
        [.. subject.Owners.Of(take).Select(h => (double)(h.Frame + subject.DelayFrames(take)) / take.Figures!.RateHz).Order()];

    private static bool IsNear(List<double> hits, double at)
    {
        var next = hits.BinarySearch(at - AfterHitS);
        next = next < 0 ? ~next : next;
        return next < hits.Count && hits[next] <= at + BeforeHitS;
    }
}
