using DrumPrint.Chains;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Checking.Rules;

/// <summary>Microphones of one drum that meet in one bus, and their energies on its hits.</summary>
/// <param name="Bus">Where they meet.</param>
/// <param name="Takes">The microphones, the one hits are taken from first.</param>
/// <param name="Energies">Energies on the drum's hits.</param>
/// <param name="LowHz">Lower end of the drum's band.</param>
/// <param name="HighHz">Upper end.</param>
internal sealed record DrumGroup(Bus Bus, IReadOnlyList<CheckedTake> Takes, HitEnergies Energies, double LowHz, double HighHz);

/// <summary>Finds them.</summary>
internal static class DrumGroups
{
    private const int MostHits = 48;

    public static IEnumerable<DrumGroup> Of(CheckSubject subject)
    {
        foreach (var bus in subject.Chain?.Buses ?? [])
        {
            var feeds = bus.Feeds.Select(f => (Feed: f, Take: subject.RawsByName.GetValueOrDefault(f.Source))).Where(f => f.Take is { Figures: not null, IsClose: true } t && t.Figures.RateHz == subject.RateHz).ToList();
            foreach (var drum in feeds.GroupBy(f => HitOwners.Drum(f.Take!), StringComparer.Ordinal).Where(g => g.Count() > 1))
            {
                var ordered = drum.OrderBy(f => f.Take!.Role is TakeRole.SnareUnder or TakeRole.TomUnder).ThenByDescending(f => f.Feed.LevelDb + f.Take!.Track!.LevelDb).ToList();
                var first = ordered[0].Take!;
                var hits = Thinned([.. subject.Owners.Loud(first).Select(h => h.Frame + subject.DelayFrames(first))]);
                if (hits.Count < 3)
                {
                    continue;
                }

                var (low, high) = first.Role switch
                {
                    TakeRole.Kick => (40.0, 250.0),
                    TakeRole.Snare => (120.0, 500.0),
                    _ => (60.0, 300.0),
                };
                IReadOnlyList<FrameReader> readers = [.. ordered.Select(f => subject.Windows.Middle(f.Take!))];
                IReadOnlyList<double> gains = [.. ordered.Select(f => Decibels.ToGain(f.Feed.LevelDb + f.Take!.Track!.LevelDb) * (f.Feed.IsInverted != f.Take.Track.IsInverted ? -1 : 1))];
                IReadOnlyList<long> delays = [.. ordered.Select(f => subject.DelayFrames(f.Take!) + f.Feed.Delay.ToFrames(subject.RateHz, subject.Chain!.Song.TemperatureC))];
                yield return new DrumGroup(bus, [.. ordered.Select(f => f.Take!)], new HitEnergies(readers, gains, delays, hits, subject.RateHz), low, high);
            }
        }
    }

    private static List<long> Thinned(List<long> frames) =>
        frames.Count <= MostHits ? frames : [.. Enumerable.Range(0, MostHits).Select(i => frames[(int)((long)i * frames.Count / MostHits)])];
}
