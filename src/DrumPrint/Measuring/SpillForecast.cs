using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Processors;
using DrumPrint.Files;
using DrumPrint.Listening;
using DrumPrint.Session;

namespace DrumPrint.Measuring;

/// <summary>Runs a chain up to each <c>spill</c> and tells what goes down: spill, and what of the drum itself is lost with it.</summary>
/// <remarks>Whose hit it is, is told as <see cref="KitHits"/> does, with the microphone before the <c>spill</c> and each side of its key as the kit.</remarks>
public static class SpillForecast
{
    private const double BeforeS = 0.003;
    private const double AfterS = 0.036;
    private const double Nothing = 1e-9;

    /// <summary>Every <c>spill</c>, in the order of the chain.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="reading">Which files it may name.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops between blocks.</param>
    /// <exception cref="InputException">Files are missing or do not fit.</exception>
    /// <exception cref="ChainException">Settings do not go together.</exception>
    public static IReadOnlyList<SpillRecord> Of(Chain chain, ReadPolicy reading, Action<string, double> progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(chain);
        ArgumentNullException.ThrowIfNull(progress);
        var found = chain.Buses.SelectMany(b => b.Stages.Select((s, i) => (Bus: b, Stage: s, Index: i))).Where(f => f.Stage.Definition == Spill.Definition).ToList();
        if (found.Count == 0)
        {
            return [];
        }

        using var run = new CutRun(chain, reading, found.SelectMany(f => new[] { (f.Bus, f.Index), (f.Bus, f.Index + 1) }));
        var rate = chain.Song.RateHz;
        var heard = new Dictionary<string, SidesHeard>(StringComparer.Ordinal);
        SidesHeard Hear(string name)
        {
            if (!heard.TryGetValue(name, out var sides))
            {
                heard.Add(name, sides = new SidesHeard(rate));
                run.Hear(name, sides.Add);
            }

            return sides;
        }

        List<(SidesHeard Before, SidesHeard After, SidesHeard Key)> parts =
            [.. found.Select(f => (Hear(CutRun.NameOf(f.Bus, f.Index)), Hear(CutRun.NameOf(f.Bus, f.Index + 1)), Hear(f.Stage.Key!)))];
        run.Run(progress, cancel);
        return [.. found.Zip(parts, (f, p) => Record(chain, f.Bus.Name, f.Stage, p.Before.Middle, p.After.Middle, p.Key.Sides))];
    }

    private static SpillRecord Record(Chain chain, string bus, Stage stage, HitFinder before, HitFinder after, IReadOnlyList<HitFinder> keys)
    {
        // Nothing to be told apart from in a side that is silent.
        HitFinder[] heard = [before, .. keys.Where(k => k.Found().Hits.Count > 0)];
        var rate = chain.Song.RateHz;
        var kit = KitHits.Of(heard, rate);
        var clear = kit.ClearanceDb([.. Enumerable.Range(0, heard.Length).Select(m => new[] { m })], 0, 0);
        var sorts = Enum.GetValues<HitSort>().ToDictionary(s => s, _ => new List<SpilledHit>());
        for (var hit = 0; hit < clear.Length; hit++)
        {
            var sort = HitLevels.SortOf(kit, 0, hit, clear[hit]);
            if (sort != HitSort.Spill && kit.OnsetFrame(0, hit) < 0)
            {
                continue;
            }

            var (from, to) = (kit.Frames[hit] - (long)(BeforeS * rate), kit.Frames[hit] + (long)(AfterS * rate));
            double Level(HitFinder finder) => Decibels.FromGain(finder.Loudest(from, to) + Nothing);
            var seconds = (double)kit.Frames[hit] / rate;
            sorts[sort].Add(new SpilledHit(seconds, chain.Song.PlaceOf(seconds), Level(before), Level(after) - Level(before)));
        }

        return new SpillRecord(bus, stage.Key!, stage.Line, stage.Settings[Spill.Amount], sorts[HitSort.Hit], sorts[HitSort.Ghost], sorts[HitSort.Spill]);
    }

    // What a track or bus plays: each side, and both together.
    private sealed class SidesHeard(int rateHz)
    {
        private readonly List<HitFinder> _sides = [];
        private double[] _middle = [];
        private long _skipped;

        public HitFinder Middle { get; } = new(rateHz, hearsBright: false);

        public IReadOnlyList<HitFinder> Sides => _sides.Count == 0 ? [Middle] : _sides;

        public void Add(AudioBlock block, long latency)
        {
            var skip = (int)Math.Min(block.Frames, latency - _skipped);
            _skipped += skip;
            var left = block[0][skip..];
            var right = block[block.Channels - 1][skip..];
            if (block.Channels == 1)
            {
                Middle.Add(left);
                return;
            }

            if (_sides.Count == 0)
            {
                _sides.AddRange([new HitFinder(rateHz, hearsBright: false), new HitFinder(rateHz, hearsBright: false)]);
            }

            _sides[0].Add(left);
            _sides[1].Add(right);
            _middle = _middle.Length < left.Length ? new double[left.Length] : _middle;
            for (var n = 0; n < left.Length; n++)
            {
                _middle[n] = (left[n] + right[n]) / 2;
            }

            Middle.Add(_middle.AsSpan(0, left.Length));
        }
    }
}
