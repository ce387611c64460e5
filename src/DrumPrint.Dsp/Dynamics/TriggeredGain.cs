namespace DrumPrint.Dsp.Dynamics;

/// <summary>A gain that stands at rest or at work: a level switches it over, and it moves in exact times.</summary>
/// <remarks>
/// <para>It goes to work when the level reaches the upper of two thresholds. It goes to rest once the level has stayed below the
/// lower one for the hold. Between the two nothing changes, so a level that wavers there cannot make it chatter.</para>
/// <para>Attack: when the level comes in frame n, frame n + attack is the first at full work. Hold and release: when frame m was
/// the last at or above the lower threshold, frame m + hold is the last at full work and m + hold + release the first
/// at full rest. A move that is called back turns around where it is and takes its full time from there.</para>
/// </remarks>
internal sealed class TriggeredGain
{
    private readonly TriggerLevels _levels;
    private readonly TriggerTimes _times;
    private readonly double _atRest;
    private readonly double _atWork;
    private readonly GainRamp _ramp;
    private bool _isAtWork;
    private int _framesBelow;

    public TriggeredGain(TriggerLevels levels, TriggerTimes times, double atRest, double atWork)
    {
        (_levels, _times, _atRest, _atWork) = (levels, times, atRest, atWork);
        _ramp = new GainRamp(atRest);
    }

    /// <summary>Replaces levels by gains.</summary>
    public void Follow(Span<double> frames)
    {
        while (!frames.IsEmpty)
        {
            var run = _isAtWork ? StayAtWork(frames) : StayAtRest(frames);
            _ramp.Fill(frames[..run]);
            frames = frames[run..];
        }
    }

    // The frames that change nothing; 0 when the first of them does.
    private int StayAtRest(ReadOnlySpan<double> levels)
    {
        var run = LevelScan.FirstAtLeast(levels, _levels.Upper);
        if (run == 0)
        {
            (_isAtWork, _framesBelow) = (true, 0);
            _ramp.Begin(_atWork, _times.Attack, elapsed: 0);
        }

        return run;
    }

    private int StayAtWork(ReadOnlySpan<double> levels)
    {
        var left = _times.Hold - _framesBelow;
        if (left == 0)
        {
            return EndOfHold(levels);
        }

        var run = Math.Min(levels.Length, left);
        var last = LevelScan.LastAtLeast(levels[..run], _levels.Lower);
        _framesBelow = last < 0 ? _framesBelow + run : run - 1 - last;
        return run;
    }

    private int EndOfHold(ReadOnlySpan<double> levels)
    {
        var run = LevelScan.FirstBelow(levels, _levels.Lower);
        if (run == 0)
        {
            _isAtWork = false;
            _ramp.Begin(_atRest, _times.Release, elapsed: 1);
            return 0;
        }

        _framesBelow = 0;
        return run;
    }
}
