namespace DrumPrint.Dsp.Dynamics;

/// <summary>From how far a level stands above a ceiling to how far it is turned down: held, released, and rounded off.</summary>
internal sealed class CeilingLane
{
    // Makes a release end in nothing.
    private const double SliverDb = 1e-9;

    private readonly ExactSmoother _smoother;
    private readonly RunningMaximum _largest;
    private readonly double _keep;
    private readonly int _memory;
    private readonly LookAhead? _wait;
    private double _reduction;
    private int _quietFrames;

    /// <param name="times">Its times in frames.</param>
    /// <param name="slackFrames">Frames on either side of a peak that are turned down as far as the peak.</param>
    /// <param name="waitFrames">Frames to wait for another lane.</param>
    public CeilingLane(CeilingTimes times, int slackFrames, int waitFrames)
    {
        _smoother = new ExactSmoother(times.Ahead);
        var held = _smoother.Length + (2 * slackFrames) + 1 + times.Hold;
        _largest = new RunningMaximum(held);
        _memory = held + waitFrames;
        _wait = waitFrames > 0 ? new LookAhead(waitFrames, TrueLevel.MaxFrames) : null;
        _keep = TimeConstant.PerFrame((double)times.Release);
        _quietFrames = _memory;
        DelayFrames = _smoother.Length - 1 + slackFrames + waitFrames;
    }

    /// <summary>Frames by which what comes out lags.</summary>
    public int DelayFrames { get; }

    /// <summary>Whether nothing is turned down and nothing of the past is left.</summary>
    public bool IsAtRest => _quietFrames >= _memory && _reduction == 0 && _smoother.IsAtRest;

    /// <summary>Replaces decibels above the ceiling, 0 or more, by those to turn down.</summary>
    public void Follow(Span<double> decibels)
    {
        var last = LevelScan.LastAtLeast(decibels, double.Epsilon);

        // Where nothing has come for as long as is remembered, nothing comes out of either.
        if (last >= 0 || _quietFrames < _memory)
        {
            _wait?.Process(decibels);
            _largest.Follow(decibels);
        }

        _quietFrames = last < 0 ? Math.Min(_memory, _quietFrames + decibels.Length) : decibels.Length - 1 - last;
        var (reduction, keep) = (_reduction, _keep);
        foreach (ref var value in decibels)
        {
            reduction = double.MaxNative(value, Math.FusedMultiplyAdd(keep, reduction, -SliverDb));
            value = reduction;
        }

        _reduction = reduction;
        _smoother.Follow(decibels);
    }
}
