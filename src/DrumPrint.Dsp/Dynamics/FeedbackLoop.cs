namespace DrumPrint.Dsp.Dynamics;

/// <summary>Attack and release of a compressor whose detector sees its own output of the frame before.</summary>
/// <remarks>
/// <para>Source: Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. (18): the loop asks for c = (R − 1)(y − T) when the
/// output level y is above the threshold T. It rests where c equals the reduction g in force, and since y is the input
/// level x less g, that is at g∞ = (1 − 1/R)(x − T): the curve of a feed-forward compressor of the same ratio, knee included.</para>
/// <para>A loop closed with slope R − 1 moves R times as fast as its detector, so a detector slowed down by R makes the dials
/// true. Since c − g = R (g∞ − g), that detector's step (1 − a)/R · (c − g) is (1 − a)(g∞ − g), and this is how it is
/// reckoned here: the factor in force is a at every ratio, R (1 − a) / R stays below 2, and the loop is stable up to
/// 100:1. The peak hold keeps g∞, not c, or it would go on demanding what the gain has meanwhile given.</para>
/// <para>While the output is below the knee the loop is open and asks for nothing, even where the input is still above the
/// threshold: after a partial drop the gain comes back sooner than a feed-forward one, a feedback compressor's own way.</para>
/// </remarks>
internal sealed class FeedbackLoop
{
    private const double Silence = -1000;

    private readonly double _foot;
    private readonly double _leak;
    private readonly double _rise;
    private readonly double _fall;
    private readonly double _link;
    private readonly double[] _inputLevel;
    private readonly double[] _rest;
    private readonly double[] _held;
    private readonly double[] _reduction;

    /// <param name="ballistics">Attack and release.</param>
    /// <param name="foot">Level in dB up to which nothing comes off.</param>
    /// <param name="lanes">Detectors.</param>
    /// <param name="link">How far each lane goes along with the one that asks for most, 0 to 1.</param>
    public FeedbackLoop(Ballistics ballistics, double foot, int lanes, double link)
    {
        (_leak, _rise, _fall) = (ballistics.Leak, ballistics.Rise, ballistics.Fall);
        _foot = foot;
        _link = link;
        _inputLevel = new double[lanes];
        Array.Fill(_inputLevel, Silence);
        _rest = new double[lanes];
        _held = new double[lanes];
        _reduction = new double[lanes];
    }

    /// <summary>Replaces the reductions at which the loop would rest by those to apply.</summary>
    /// <param name="levels">Input level in dB of each lane and frame. The output's is this less the reduction given.</param>
    /// <param name="reductions">The static curve at those levels.</param>
    /// <param name="frames">Frames to follow.</param>
    public void Follow(double[][] levels, double[][] reductions, int frames)
    {
        for (var i = 0; i < frames; i++)
        {
            var loudest = _inputLevel[0];
            for (var lane = 1; lane < reductions.Length; lane++)
            {
                loudest = double.MaxNative(loudest, _inputLevel[lane]);
            }

            // A lane that others draw down hears itself raised by as much of their level, or it would take itself for silent.
            var most = 0.0;
            for (var lane = 0; lane < reductions.Length; lane++)
            {
                var level = Math.FusedMultiplyAdd(_link, loudest - _inputLevel[lane], _inputLevel[lane]);
                _rest[lane] = level - _reduction[lane] > _foot ? _rest[lane] : 0;
                most = double.MaxNative(most, _rest[lane]);
            }

            for (var lane = 0; lane < reductions.Length; lane++)
            {
                var asked = Math.FusedMultiplyAdd(_link, most - _rest[lane], _rest[lane]);
                _inputLevel[lane] = levels[lane][i];
                _rest[lane] = reductions[lane][i];
                reductions[lane][i] = Next(lane, asked);
            }
        }
    }

    private double Next(int lane, double asked)
    {
        var held = double.MaxNative(asked, Math.FusedMultiplyAdd(_leak, _held[lane], (1 - _leak) * asked));
        held = held < ReductionFollower.Negligible ? 0 : held;
        var keep = held > _reduction[lane] ? _rise : _fall;
        var reduction = Math.FusedMultiplyAdd(keep, _reduction[lane], (1 - keep) * held);
        _held[lane] = held;
        return _reduction[lane] = reduction < ReductionFollower.Negligible ? 0 : reduction;
    }
}
