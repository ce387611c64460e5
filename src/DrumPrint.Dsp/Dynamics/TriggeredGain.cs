namespace DrumPrint.Dsp.Dynamics;

/// <summary>A gain that stands at rest or at work: a level switches it over, and it moves in exact times.</summary>
/// <remarks>
/// <para>It goes to work when the level reaches the upper of two thresholds. It goes to rest once the level has stayed below the
/// lower one for the hold. Between the two nothing changes, so a level that wavers there cannot make it chatter.</para>
/// <para>Attack: when the level comes in frame n, frame n + attack is the first at full work. Hold and release: let frame m be
/// the last at or above the lower threshold. Frame m + hold is then the last at full work, and frame m + hold + release the
/// first at full rest. A move that is called back turns around where it is and takes its full time from there.</para>
/// </remarks>
internal sealed class TriggeredGain
{
    private readonly TriggerLevels _levels;
    private readonly RampTime _attack;
    private readonly int _hold;
    private readonly RampTime _release;
    private readonly double _atRest;
    private readonly double _atWork;
    private readonly GainRamp _ramp;
    private bool _isAtWork;
    private int _framesBelow;

    /// <param name="levels">The thresholds.</param>
    /// <param name="times">How long its moves take and how long it waits.</param>
    /// <param name="atRest">Gain at rest, above 0.</param>
    /// <param name="atWork">Gain at work, above 0.</param>
    /// <param name="fallsStraight">Whether the way down is a straight line in dB rather than a raised cosine.</param>
    public TriggeredGain(TriggerLevels levels, TriggerTimes times, double atRest, double atWork, bool fallsStraight)
    {
        (_levels, _atRest, _atWork) = (levels, atRest, atWork);
        (_attack, _hold, _release) = (new RampTime(times.Attack), times.Hold, new RampTime(times.Release));
        _ramp = new GainRamp(atRest, fallsStraight);
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
            _ramp.Begin(_atWork, _attack, elapsed: 0);
        }

        return run;
    }

    private int StayAtWork(ReadOnlySpan<double> levels)
    {
        var left = _hold - _framesBelow;
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
            _ramp.Begin(_atRest, _release, elapsed: 1);
            return 0;
        }

        _framesBelow = 0;
        return run;
    }
}
