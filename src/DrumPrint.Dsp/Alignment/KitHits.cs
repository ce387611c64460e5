using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Alignment;

/// <summary>Everything that is hit in a take, and how loud each microphone hears it against what it usually hears of its own drum.</summary>
/// <remarks>A hit belongs to the drum whose close microphone hears it loudest against its own typical hit. So neither the level
/// of the recording nor that of the drum counts. What falls together with another drum belongs to none. Common practice, no
/// source.</remarks>
public sealed class KitHits
{
    private const double TogetherS = 0.015;
    private const double BeforeS = 0.003;
    private const double AfterS = 0.036;
    private const double OnsetReachS = 0.02;
    private const int LoudPart = 16;
    private const int LoudRank = 2;
    private const double LoudDb = -6;
    private const int SpillPart = 5;
    private const double Nothing = 1e-9;
    private const double LowestDb = -60;

    private readonly double[][] _levelsDb; // by microphone, then by hit
    private readonly long[][] _onsets; // by microphone, then by hit; −1 where it finds no onset

    private KitHits(int rateHz, long[] frames, double[][] levelsDb, long[][] onsets, double[] typicalDb)
    {
        (RateHz, Frames, _levelsDb, _onsets, TypicalDb) = (rateHz, frames, levelsDb, onsets, typicalDb);
    }

    /// <summary>Frames in a second.</summary>
    public int RateHz { get; }

    /// <summary>Where each hit is first heard by any microphone, in order of time.</summary>
    public IReadOnlyList<long> Frames { get; }

    /// <summary>For each microphone, level of a typical loud hit, in dB of full scale; −180 for silence.</summary>
    public IReadOnlyList<double> TypicalDb { get; }

    /// <summary>Gathers the hits of a take.</summary>
    /// <param name="microphones">All that heard it, from the same moment on.</param>
    /// <param name="rateHz">Frames in a second.</param>
    public static KitHits Of(IReadOnlyList<HitFinder> microphones, int rateHz)
    {
        ArgumentNullException.ThrowIfNull(microphones);
        var found = microphones.Select(m => m.Found().Hits).ToArray();
        var frames = Together([.. found.SelectMany(hits => hits).Select(h => h.Frame).Order()], rateHz);
        var levels = new double[microphones.Count][];
        var onsets = new long[microphones.Count][];
        var typical = new double[microphones.Count];
        for (var m = 0; m < microphones.Count; m++)
        {
            levels[m] = new double[frames.Length];
            onsets[m] = Onsets(found[m], frames, rateHz);
            for (var i = 0; i < frames.Length; i++)
            {
                var level = microphones[m].Loudest(frames[i] - (long)(BeforeS * rateHz), frames[i] + (long)(AfterS * rateHz));
                levels[m][i] = Decibels.FromGain(level + Nothing);
            }

            double[] loud = [.. levels[m].Order().Reverse()];
            var own = onsets[m].Count(o => o >= 0);
            typical[m] = loud.Length == 0 ? Decibels.FromGain(Nothing) : loud[Math.Min(loud.Length - 1, Math.Max(LoudRank, own / LoudPart))];
        }

        return new KitHits(rateHz, frames, levels, onsets, typical);
    }

    /// <summary>How loud a microphone hears a hit, against its typical one, in dB, −60 or more.</summary>
    public double RelativeDb(int microphone, int hit) => Math.Max(LowestDb, _levelsDb[microphone][hit] - TypicalDb[microphone]);

    /// <summary>Level of a hit in a microphone, in dB of full scale.</summary>
    public double LevelDb(int microphone, int hit) => _levelsDb[microphone][hit];

    /// <summary>Where a microphone hears a hit begin, to about a millisecond; −1 where it finds no onset of its own.</summary>
    public long OnsetFrame(int microphone, int hit) => _onsets[microphone][hit];

    /// <summary>How clearly one microphone hears its own drum in each hit, in dB. Its level is held against what the other
    /// drums spill into it. They count as loud as their own microphones hear them.</summary>
    /// <param name="drums">Close microphones of each drum.</param>
    /// <param name="drum">Whose microphone it is.</param>
    /// <param name="microphone">The microphone.</param>
    public double[] ClearanceDb(IReadOnlyList<IReadOnlyList<int>> drums, int drum, int microphone)
    {
        ArgumentNullException.ThrowIfNull(drums);
        var rival = new double[Frames.Count];
        Array.Fill(rival, LowestDb);
        for (var d = 0; d < drums.Count; d++)
        {
            var spill = d == drum ? 0 : SpillDb(drums[d], microphone);
            for (var hit = 0; d != drum && hit < rival.Length; hit++)
            {
                rival[hit] = Math.Max(rival[hit], RelativeDb(drums[d], hit) + spill);
            }
        }

        return [.. rival.Select((level, hit) => RelativeDb(microphone, hit) - level)];
    }

    /// <summary>How loud a drum is in another drum's microphone, in dB. It is the level there against the level in its own
    /// microphones, each against its typical hit. The lower of its hits count: at the others both drums may have been
    /// hit.</summary>
    /// <param name="drum">Its own microphones.</param>
    /// <param name="microphone">The other one.</param>
    public double SpillDb(IReadOnlyList<int> drum, int microphone)
    {
        double[] heard = [.. Enumerable.Range(0, Frames.Count).Where(h => RelativeDb(drum, h) >= LoudDb).Select(h => RelativeDb(microphone, h) - RelativeDb(drum, h)).Order()];
        return heard.Length == 0 ? LowestDb : heard[heard.Length / SpillPart];
    }

    /// <summary>The mean over the microphones of one drum.</summary>
    public double RelativeDb(IReadOnlyList<int> group, int hit)
    {
        ArgumentNullException.ThrowIfNull(group);
        var sum = 0.0;
        foreach (var microphone in group)
        {
            sum += RelativeDb(microphone, hit);
        }

        return sum / group.Count;
    }

    private static long[] Together(long[] sorted, int rateHz)
    {
        var frames = new List<long>();
        foreach (var frame in sorted)
        {
            if (frames.Count == 0 || frame - frames[^1] > (long)(TogetherS * rateHz))
            {
                frames.Add(frame);
            }
        }

        return [.. frames];
    }

    private static long[] Onsets(IReadOnlyList<Hit> hits, long[] frames, int rateHz)
    {
        var result = new long[frames.Length];
        var next = 0;
        for (var i = 0; i < frames.Length; i++)
        {
            var (from, to) = (frames[i] - (long)(BeforeS * rateHz), frames[i] + (long)(OnsetReachS * rateHz));
            while (next < hits.Count && hits[next].Frame < from)
            {
                next++;
            }

            result[i] = next < hits.Count && hits[next].Frame <= to ? hits[next].Frame : -1;
        }

        return result;
    }
}
