using DrumPrint.Chains;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Files;

namespace DrumPrint.Checking.Subjects;

/// <summary>Foretells what parallel ways of one track do to each other where they meet, before anything is printed.</summary>
/// <remarks>
/// A way is the feeds it goes by: levels, sides, polarity, delays. What the processors of its buses make louder or softer is measured over
/// the song, so the blend is the actual one. Their own delay is taken out by the print, as always. Two copies of g₁ and g₂, τ apart, add up
/// to |g₁ + g₂·e^(−jωτ)|; dips are told against |g₁| + |g₂|, both in step. Ways that echo, or go through an impulse, meet nowhere in time.
/// </remarks>
internal static class CombForecast
{
    private const string Rough = "the rough";
    private const double LongestMs = 20; // later is an echo
    private const double LeastDipGain = 0.501; // −6 dB
    private const double LowestHz = 40;
    private const double HighestHz = 8000;
    private const double StepHz = 5;
    private const int MostWays = 128;
    private const double SameFrame = 0.01;

    /// <summary>Every place where a track will meet itself out of step.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="raws">Raw tracks by name.</param>
    /// <param name="reading">What may be read.</param>
    /// <param name="threads">Threads to render with.</param>
    /// <param name="cancel">Stops it.</param>
    public static IReadOnlyList<ForecastComb> Of(Chain chain, IReadOnlyDictionary<string, CheckedTake> raws, ReadPolicy reading, int threads, CancellationToken cancel)
    {
        var ways = new Dictionary<string, IReadOnlyList<Way>>(StringComparer.Ordinal);
        var places = chain.Buses.Select(b => (b.Name, Entries: b.Feeds.Select(f => (By: f.Source, Ways: Entry(chain, f, ways))).ToList()))
            .Append((Name: Rough, Entries: chain.Prints.Where(p => !p.IsOptional).Select(p => (By: p.Name, Ways: (IReadOnlyList<Way>)[.. To(chain, p.Bus, ways).Select(w => w.Through(Decibels.ToGain(p.LevelDb), 0))])).ToList()));
        var meetings = places.SelectMany(p => Meetings(p.Name, p.Entries)).Where(m => m.IsOutOfStep(chain.Song.RateHz)).ToList();
        if (meetings.Count == 0)
        {
            return [];
        }

        var needed = meetings.SelectMany(m => m.Entries).SelectMany(e => e.Ways).SelectMany(w => w.Buses).ToHashSet(StringComparer.Ordinal);
        var gains = BusGains.Of(chain, [.. chain.Buses.Where(b => needed.Contains(b.Name) && b.Stages.Count > 0)], raws, reading, threads, cancel);
        return [.. meetings.Select(m => m.Comb(gains, chain.Song.RateHz)).OfType<ForecastComb>()];
    }

    private static IReadOnlyList<Way> Entry(Chain chain, Feed feed, Dictionary<string, IReadOnlyList<Way>> known)
    {
        var sides = feed.PanPct is { } pan ? PanLaw.Mono(pan, chain.Song.PanLawDb) : (1, 1);
        var (whole, part) = feed.Delay.Parts(chain.Song.RateHz, chain.Song.TemperatureC);
        var gain = Decibels.ToGain(feed.LevelDb) * (feed.IsInverted ? -1 : 1) * (sides.Item1 + sides.Item2) / 2;
        return [.. To(chain, feed.Source, known).Select(w => w.Through(gain, whole + part))];
    }

    // Each bus once: a chain may have thousands.
    private static IReadOnlyList<Way> To(Chain chain, string name, Dictionary<string, IReadOnlyList<Way>> known)
    {
        if (known.TryGetValue(name, out var ways))
        {
            return ways;
        }

        var bus = chain.Buses.FirstOrDefault(b => b.Name == name);
        ways = bus is null ? [new Way(name, 1, 0, [])]
            : bus.Stages.Any(s => s.Definition.Key is "convolve" or "delay") ? []
            : [.. bus.Feeds.SelectMany(f => Entry(chain, f, known)).Take(MostWays).Select(w => w with { Buses = [.. w.Buses, name] })];
        known.Add(name, ways);
        return ways;
    }

    private static IEnumerable<Meeting> Meetings(string place, List<(string By, IReadOnlyList<Way> Ways)> entries) =>
        entries.SelectMany(e => e.Ways.Select(w => w.Track)).Distinct(StringComparer.Ordinal)
            .Select(t => new Meeting(place, t, [.. entries.Select(e => (e.By, Ways: (IReadOnlyList<Way>)[.. e.Ways.Where(w => w.Track == t)])).Where(e => e.Ways.Count > 0)]))
            .Where(m => m.Entries.Count > 1);

    private sealed record Way(string Track, double Gain, double DelayFrames, IReadOnlyList<string> Buses)
    {
        public Way Through(double gain, double frames) => this with { Gain = Gain * gain, DelayFrames = DelayFrames + frames };

        public double GainWith(IReadOnlyDictionary<string, double> gains) => Buses.Aggregate(Gain, (gain, bus) => gain * gains.GetValueOrDefault(bus, 1));
    }

    private sealed record Meeting(string Place, string Track, IReadOnlyList<(string By, IReadOnlyList<Way> Ways)> Entries)
    {
        public bool IsOutOfStep(int rateHz)
        {
            var all = Entries.SelectMany(e => e.Ways).ToList();
            var apart = all.Max(w => w.DelayFrames) - all.Min(w => w.DelayFrames);
            return (apart > SameFrame || all.Any(w => w.Gain < 0) != all.All(w => w.Gain < 0)) && apart <= LongestMs / 1000 * rateHz;
        }

        public ForecastComb? Comb(IReadOnlyDictionary<string, double> gains, int rateHz)
        {
            var entries = Entries.Select(e => e.Ways.Select(w => (Gain: w.GainWith(gains), w.DelayFrames)).ToList()).ToList();
            var count = (int)((HighestHz - LowestHz) / StepHz) + 1;
            var kept = new double[count];
            for (var i = 0; i < count; i++)
            {
                var radians = 2 * Math.PI * (LowestHz + (i * StepHz)) / rateHz;
                var (re, im, apart) = (0.0, 0.0, 0.0);
                foreach (var entry in entries)
                {
                    var (x, y) = (entry.Sum(w => w.Gain * Elementary.Cos(radians * w.DelayFrames)), entry.Sum(w => -w.Gain * Elementary.Sin(radians * w.DelayFrames)));
                    (re, im, apart) = (re + x, im + y, apart + Math.Sqrt((x * x) + (y * y)));
                }

                kept[i] = apart > 0 ? Math.Sqrt((re * re) + (im * im)) / apart : 1;
            }

            if (kept.Min() > LeastDipGain)
            {
                return null;
            }

            List<double> dips = kept.Max() - kept.Min() < SameFrame ? []
                : [.. Enumerable.Range(0, count).Where(i => kept[i] <= LeastDipGain && kept[i] <= kept[Math.Max(0, i - 1)] && kept[i] < kept[Math.Min(count - 1, i + 1)]).Select(i => LowestHz + (i * StepHz))];
            var loudest = entries.SelectMany((e, n) => e.Select(w => (Entry: n, Gain: Math.Abs(w.Gain), w.DelayFrames))).OrderByDescending(w => w.Gain).ToList();
            var second = loudest.First(w => w.Entry != loudest[0].Entry);
            return new ForecastComb(
                Place,
                Track,
                [.. Entries.Select(e => e.By)],
                1000 * Math.Abs(loudest[0].DelayFrames - second.DelayFrames) / rateHz,
                Decibels.FromGain(loudest[0].Gain / Math.Max(1e-15, second.Gain)),
                -Decibels.FromGain(Math.Max(1e-6, kept.Min())),
                dips);
        }
    }
}
