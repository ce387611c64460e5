using DrumPrint.Dsp.Dynamics;

namespace DrumPrint.Dsp.Layering;

/// <summary>Tells, frame by frame, how surely a power begins to stand above what was before.</summary>
/// <remarks>
/// <para>A hit begins where three things hold. The next 4 ms have more power than the 4 ms before and than the 20 ms before, by the rise
/// asked for. Their highest peak, of 8 ms, lies as far above that of the last 32 ms. And that peak reaches the level asked for. Two modes
/// that beat rise too slowly for the first, and the waves of a low note for the second. What rings on unevenly fails the third.</para>
/// <para>Common practice to compare energies, no source; the three together are our own. Sums run on whole numbers of a fixed step, so they
/// never drift, and depend on nothing earlier.</para>
/// </remarks>
internal sealed class RiseLine
{
    private const double AheadMs = 4;
    private const int FarParts = 5;
    private const int PeakParts = 2;
    private const int RecentPeaks = 4;

    // A step of −108 dB. The largest sum is 4096 over 8192 frames: 2⁶¹ steps.
    private const double Steps = 68719476736;
    private const double Largest = 4096;

    // A rise out of silence counts as one above this part of the level asked for.
    private const double Floor = 1e-3;

    // 12 dB: a rise above this makes a hit no surer; the louder one is meant then.
    private const double SureRise = 16;

    private readonly int _ahead;
    private readonly int _far;
    private readonly int _peak;
    private readonly long _mask;
    private readonly long[] _powers;
    private readonly double[] _peaks;
    private readonly RunningMaximum _highest;
    private readonly double _rise;
    private readonly double _open;
    private readonly double _floor;
    private long _frame;
    private long _aheadSum;
    private long _nearSum;
    private long _farSum;

    /// <param name="sampleRate">Hertz.</param>
    /// <param name="rise">How much more power there has to be, as a ratio.</param>
    /// <param name="open">Squared level that a peak has to reach.</param>
    public RiseLine(int sampleRate, double rise, double open)
    {
        _ahead = Math.Max(1, TriggerTimes.Frames(AheadMs, sampleRate));
        (_far, _peak) = (FarParts * _ahead, PeakParts * _ahead);
        var room = 1L;
        while (room < ((RecentPeaks + 1) * _peak) + 2 + HitDetector.MaxFrames)
        {
            room *= 2;
        }

        _mask = room - 1;
        (_powers, _peaks) = (new long[room], new double[room]);
        _highest = new RunningMaximum(_peak);
        (_rise, _open, _floor) = (rise, open, open * Floor * _ahead * Steps);
    }

    /// <summary>Frames by which the answers lag.</summary>
    public int DelayFrames => _peak - 1;

    /// <summary>Frames by which the place of the highest answer may stray from the steepest one.</summary>
    public int StrayFrames => _ahead;

    /// <summary>Frames after which what came earlier counts no more.</summary>
    public int MemoryFrames => (RecentPeaks + 1) * _peak;

    /// <summary>Takes in a stretch and answers for frames that lie <see cref="DelayFrames"/> back.</summary>
    /// <param name="powers">At most <see cref="HitDetector.MaxFrames"/>; used up.</param>
    /// <param name="scores">Receives 0 where no hit begins, else the larger, the surer and louder it is.</param>
    /// <param name="steepness">Receives how many times as much power begins there as was before, 0 where no peak reaches the level asked
    /// for: most where a hit begins, whatever its level.</param>
    public void Follow(Span<double> powers, Span<double> scores, Span<double> steepness)
    {
        scores.Clear();
        steepness.Clear();
        var (ring, mask, start) = (_powers, _mask, _frame);
        for (var n = 0; n < powers.Length; n++)
        {
            ring[(start + n) & mask] = (long)(Math.Min(powers[n], Largest) * Steps);
        }

        _highest.Follow(powers);
        for (var n = 0; n < powers.Length; n++)
        {
            _peaks[(start + n) & mask] = powers[n];
        }

        var (aheadSum, nearSum, farSum, open) = (_aheadSum, _nearSum, _farSum, _open);
        for (var n = 0; n < powers.Length; n++)
        {
            var before = start + n - _peak;
            var passed = ring[before & mask];
            aheadSum += ring[(before + _ahead) & mask] - passed;
            nearSum += passed - ring[(before - _ahead) & mask];
            farSum += passed - ring[(before - _far) & mask];
            if (!(powers[n] < open))
            {
                (scores[n], steepness[n]) = Weigh(aheadSum, Math.Max(nearSum, (double)farSum / FarParts) + _floor, powers[n], before);
            }
        }

        (_aheadSum, _nearSum, _farSum, _frame) = (aheadSum, nearSum, farSum, start + powers.Length);
    }

    private (double Score, double Steepness) Weigh(double ahead, double before, double peak, long end)
    {
        var steepness = ahead / before;
        return (ahead < _rise * before || peak < _rise * Recent(end) ? 0 : ahead * Math.Min(SureRise, steepness), steepness);
    }

    // The highest power of four peak windows that end with a frame.
    private double Recent(long end)
    {
        var recent = 0.0;
        for (var i = 0; i < RecentPeaks; i++)
        {
            recent = Math.Max(recent, _peaks[(end - (i * _peak)) & _mask]);
        }

        return recent;
    }
}
