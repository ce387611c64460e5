using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Listening;

/// <summary>What a microphone's own sound says of where it stands and what it hears.</summary>
/// <param name="IsSilent">Whether it heard nothing.</param>
/// <param name="TypicalDb">Level of a typical loud hit, in dB of full scale.</param>
/// <param name="LoudHits">Hits within 12 dB of that.</param>
/// <param name="HitsHeard">Hits of the kit within 20 dB of it, of all there are: near 1 for a microphone that hears everything alike.</param>
/// <param name="LateMs">How much later than the first microphone it hears its own loud hits, in ms: the median.</param>
/// <param name="BrightHz">Where the middle of the power of its loud hits lies, in Hz.</param>
/// <param name="LowDb">Level of what lies below 120 Hz, against the whole, in dB.</param>
/// <param name="RingDb">How far its loud hits have fallen after 80 ms, in dB.</param>
internal sealed record Traits(bool IsSilent, double TypicalDb, int LoudHits, double HitsHeard, double LateMs, double BrightHz, double LowDb, double RingDb)
{
    private const double SilentDb = -75;
    private const double LoudDb = -12;
    private const double HeardDb = -20;
    private const double OnsetS = 0.010;
    private const double RingAfterS = 0.080;
    private const double RingS = 0.020;
    private const double LowS = 0.060;
    private const double Nothing = 1e-9;
    private const double LongestS = 0.045;

    /// <summary>The traits of every microphone of a take.</summary>
    public static Traits[] Of(Take take)
    {
        var (kit, rate) = (take.Kit, take.RateHz);
        var result = new Traits[take.Microphones.Count];
        var first = First(take);
        for (var m = 0; m < result.Length; m++)
        {
            var loud = Enumerable.Range(0, kit.Frames.Count).Where(h => kit.RelativeDb(m, h) >= LoudDb).ToList();
            var heard = Enumerable.Range(0, kit.Frames.Count).Count(h => kit.RelativeDb(m, h) >= HeardDb);
            var late = loud.Where(h => kit.RelativeDb(m, h) >= LoudDb / 2 && kit.OnsetFrame(m, h) >= 0 && first[h] >= 0 && kit.OnsetFrame(m, h) - first[h] < LongestS * rate)
                .Select(h => 1000.0 * (kit.OnsetFrame(m, h) - first[h]) / rate);
            var bright = loud.Select(h => Bright(take, m, kit.Frames[h]));
            var ring = loud.Select(h => Ring(take, m, h));
            result[m] = new Traits(
                kit.TypicalDb[m] < SilentDb, kit.TypicalDb[m], loud.Count, kit.Frames.Count == 0 ? 0 : (double)heard / kit.Frames.Count, Median(late), Median(bright), Median(loud.Select(h => Low(take, m, kit.Frames[h]))), Median(ring));
        }

        return result;
    }

    // The first microphone that hears a hit loud.
    private static long[] First(Take take)
    {
        var first = new long[take.Kit.Frames.Count];
        for (var h = 0; h < first.Length; h++)
        {
            first[h] = -1;
            for (var m = 0; m < take.Microphones.Count; m++)
            {
                var onset = take.Kit.OnsetFrame(m, h);
                if (onset >= 0 && take.Kit.RelativeDb(m, h) >= LoudDb && (first[h] < 0 || onset < first[h]))
                {
                    first[h] = onset;
                }
            }
        }

        return first;
    }

    private static double Bright(Take take, int m, long frame)
    {
        var (from, to) = (frame - (long)(0.002 * take.RateHz), frame + (long)(OnsetS * 3 * take.RateHz));
        var whole = take.Finders[m].Loudest(from, to);
        return whole > 0 ? take.RateHz / (2 * Math.PI) * take.Finders[m].LoudestBright(from, to) / whole : 0;
    }

    private static double Low(Take take, int m, long frame)
    {
        var (from, to) = (frame, frame + (long)(LowS * take.RateHz));
        return Decibels.FromGain((take.Lows[m].Level(from, to) + Nothing) / (take.Finders[m].Level(from, to) + Nothing));
    }

    private static double Ring(Take take, int m, int hit)
    {
        var from = take.Kit.Frames[hit] + (long)(RingAfterS * take.RateHz);
        var later = take.Finders[m].Level(from, from + (long)(RingS * take.RateHz));
        return take.Kit.LevelDb(m, hit) - Decibels.FromGain(later + 1e-9);
    }

    internal static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted.Length == 0 ? 0 : sorted[sorted.Length / 2];
    }
}
