using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Alignment;

/// <summary>Tells the hits of a close microphone's own drum from those that spill in.</summary>
/// <remarks>A drum that is close is louder here than there by more than any other: both distances fall out of the level of the
/// blow. So hits are ranked by how much louder they are here than at the second microphone, and by half their own level. Where that
/// leaves many, those go that are much softer here: a cymbal beside the drum is as close to both.</remarks>
internal static class OwnHits
{
    private const double JudgedS = 0.008;
    private const double StepS = 0.002;
    private const double LatestS = 0.024;
    private const double DepthDb = 5;
    private const int TopPart = 8; // the last of the best eighth sets the mark
    private const int TopMost = 3; // or the fourth: a drum may be hit seldom
    private const double GapDb = 3; // what lies this close below is the drum too, hit softly
    private const double SofterDb = 6; // below the hit that three in four do not reach
    private const int EnoughLoud = 8;
    private const double NotBeforeS = 0.03;
    private const double NotAfterS = 0.05;
    private const double ApartS = 0.02;
    private const double Nothing = 1e-12;

    /// <summary>Frames of the drum's own hits, and of everything else that is hit, both in order of time.</summary>
    public static (List<long> Own, List<long> Others) Choose(
        HitTimes times, FrameReader close, FrameReader other, int rateHz, int mostOwn, int mostOthers)
    {
        var ranked = times.Hits
            .Select(h => Ranked(h.Frame, close, other, rateHz))
            .OrderByDescending(h => h.RankDb)
            .ThenBy(h => h.Frame)
            .ToList();
        if (ranked.Count == 0)
        {
            return ([], []);
        }

        var mark = ranked[Math.Min(TopMost, ranked.Count / TopPart)].RankDb - DepthDb;
        List<long> own = [.. Loud([.. ranked.Where(h => h.RankDb > mark)]).Order()];
        List<long> softer = [.. ranked.Where(h => h.RankDb > mark - GapDb).Select(h => h.Frame).Order()];
        return (Thinned(own, mostOwn), Thinned(Apart(times, softer, rateHz), mostOthers));
    }

    private static IEnumerable<long> Loud(List<(long Frame, double RankDb, double LevelDb)> own)
    {
        var levels = own.Select(h => h.LevelDb).Order().ToList();
        var least = levels[(3 * levels.Count) / 4] - SofterDb;
        return own.Count(h => h.LevelDb >= least) is >= EnoughLoud ? own.Where(h => h.LevelDb >= least).Select(h => h.Frame) : own.Select(h => h.Frame);
    }

    // What is hit away from hits of the drum.
    private static List<long> Apart(HitTimes times, List<long> own, int rateHz)
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

        return found;
    }

    // Evenly, so that the whole of a song counts.
    private static List<long> Thinned(List<long> frames, int most) =>
        frames.Count <= most ? frames : [.. Enumerable.Range(0, most).Select(i => frames[(int)((long)i * frames.Count / most)])];

    private static (long Frame, double RankDb, double LevelDb) Ranked(long frame, FrameReader close, FrameReader other, int rateHz)
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
        return (frame, Db(energy / (loudest + Nothing)) + (0.5 * Db(energy)), Db(energy));
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
