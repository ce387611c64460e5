using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Alignment;

/// <summary>Tells the hits of a close microphone's own drum from those that spill in.</summary>
/// <remarks>A drum that is close is louder here than there by more than any other: both distances fall out of the level of the
/// blow. So hits are ranked by how much louder they are here than at the second microphone, and by half their own level.</remarks>
internal static class OwnHits
{
    private const double JudgedS = 0.008;
    private const double StepS = 0.002;
    private const double LatestS = 0.024;
    private const double DepthDb = 4;
    private const int TopPart = 8; // the best eighth sets the mark
    private const double NotBeforeS = 0.03;
    private const double NotAfterS = 0.05;
    private const double ApartS = 0.02;
    private const double Nothing = 1e-12;

    /// <summary>Frames of the drum's own hits, in order of time.</summary>
    public static List<long> Choose(HitTimes times, FrameReader close, FrameReader other, int rateHz, int most)
    {
        var ranked = times.Hits
            .Select(h => (h.Frame, RankDb: RankDb(h.Frame, close, other, rateHz)))
            .OrderByDescending(h => h.RankDb)
            .ThenBy(h => h.Frame)
            .ToList();
        if (ranked.Count == 0)
        {
            return [];
        }

        var mark = ranked[ranked.Count / TopPart].RankDb - DepthDb;
        return [.. ranked.Where(h => h.RankDb > mark).Take(most).Select(h => h.Frame).Order()];
    }

    /// <summary>Frames of everything else that is hit, evenly thinned out.</summary>
    public static List<long> Others(HitTimes times, List<long> own, int rateHz, int most)
    {
        var (before, after, apart) = ((long)(NotBeforeS * rateHz), (long)(NotAfterS * rateHz), (long)(ApartS * rateHz));
        var found = new List<long>();
        foreach (var frame in times.Hits.Concat(times.BrightHits).Select(h => h.Frame).Order())
        {
            var next = own.BinarySearch(frame);
            next = next < 0 ? ~next : next;
            var isOwn = (next < own.Count && own[next] - frame <= before) || (next > 0 && frame - own[next - 1] <= after);
            if (!isOwn && (found.Count == 0 || frame - found[^1] > apart))
            {
                found.Add(frame);
            }
        }

        return found.Count <= most ? found : [.. Enumerable.Range(0, most).Select(i => found[(int)((long)i * found.Count / most)])];
    }

    private static double RankDb(long frame, FrameReader close, FrameReader other, int rateHz)
    {
        var judged = (int)(JudgedS * rateHz);
        var (here, there) = (new double[judged], new double[judged + (int)(LatestS * rateHz)]);
        close(frame, here);
        other(frame, there);
        var loudest = 0.0;
        var step = (int)(StepS * rateHz);
        for (var from = 0; from + judged <= there.Length; from += step)
        {
            loudest = Math.Max(loudest, Energy(there.AsSpan(from, judged)));
        }

        var energy = Energy(here) + Nothing;
        return Db(energy / (loudest + Nothing)) + (0.5 * Db(energy));
    }

    private static double Db(double power) => Decibels.FromGain(Math.Sqrt(power));

    private static double Energy(ReadOnlySpan<double> samples)
    {
        var sum = 0.0;
        foreach (var sample in samples)
        {
            sum += sample * sample;
        }

        return sum;
    }
}
