using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Where in a hit the sound is: how far its beginning stands above a slower line, and how far it has fallen under a longer
/// one.</summary>
/// <remarks>
/// <para>Let e be the level, as an amplitude: the largest of the last 12.5 ms, which falls with a time of 10 ms. So it stands still for any
/// steady note from 40 Hz on. The slow line rises towards e by a time constant and never lies above it. The long line falls towards e
/// by another and never lies below. Neither is ever further from e than <see cref="FullDb"/>.</para>
/// <para>So both differences hang on ratios alone: a hit 30 dB softer gives the same ones, once it stands <see cref="FullDb"/> above what
/// was before. The lines are those of an envelope follower with two times, textbook.</para>
/// </remarks>
internal sealed class HitShape
{
    /// <summary>Largest difference, in dB.</summary>
    public const double FullDb = 12;

    private const double LargestMs = 12.5;
    private const double FallMs = 10;

    // What a line follows is within −100 dB after this many of its times.
    private const double TimesUntilForgotten = 13;

    // −300 dB: nothing.
    private const double Nothing = 1e-15;

    private readonly double _least = Decibels.ToGain(-FullDb);
    private readonly double _most = Decibels.ToGain(FullDb);
    private readonly RunningMaximum _largest;
    private readonly double _fall;
    private readonly double _slow;
    private readonly double _long;
    private double _level;
    private double _slowLine;
    private double _longLine;

    /// <param name="beginMs">Time after which half the beginning's difference is left while the level stands.</param>
    /// <param name="bodyMs">Time constant of the long line.</param>
    /// <param name="sampleRate">Hertz.</param>
    public HitShape(double beginMs, double bodyMs, int sampleRate)
    {
        _largest = new RunningMaximum(Math.Max(1, TriggerTimes.Frames(LargestMs, sampleRate)));
        _fall = TimeConstant.PerFrame(FallMs, sampleRate);

        // From the lowest the slow line may be, 1 − (1 − l) e^(−t/τ) comes to √l at the time asked for: half the decibels.
        var half = (1 - Math.Sqrt(_least)) / (1 - _least);
        var slowMs = -beginMs / Elementary.Log(half);
        _slow = TimeConstant.PerFrame(slowMs, sampleRate);
        _long = TimeConstant.PerFrame(bodyMs, sampleRate);
        MemoryFrames = TriggerTimes.Frames(LargestMs + (TimesUntilForgotten * (FallMs + Math.Max(slowMs, bodyMs))), sampleRate);
    }

    /// <summary>Frames after which what came earlier has moved both lines out of hearing, to about −100 dB.</summary>
    public long MemoryFrames { get; }

    /// <summary>Follows a stretch of squared levels.</summary>
    /// <param name="powers">Squared levels; replaced by their largest.</param>
    /// <param name="beginnings">Receives the decibels above the slow line, 0 to <see cref="FullDb"/>, as an amplitude ratio.</param>
    /// <param name="bodies">Receives those under the long line.</param>
    public void Follow(Span<double> powers, Span<double> beginnings, Span<double> bodies)
    {
        _largest.Follow(powers);
        var (level, slow, far) = (_level, _slowLine, _longLine);
        var (fall, slowKeep, longKeep, least, most) = (_fall, _slow, _long, _least, _most);
        beginnings = beginnings[..powers.Length];
        bodies = bodies[..powers.Length];
        for (var n = 0; n < powers.Length; n++)
        {
            var now = Math.Sqrt(powers[n]);
            level = double.MaxNative(now, Math.FusedMultiplyAdd(fall, level - now, now));
            if (!(level > Nothing))
            {
                (level, slow, far) = (0, 0, 0);
                (beginnings[n], bodies[n]) = (1, 1);
                continue;
            }

            slow = double.MinNative(level, double.MaxNative(least * level, Math.FusedMultiplyAdd(slowKeep, slow - level, level)));
            far = double.MaxNative(level, double.MinNative(most * level, Math.FusedMultiplyAdd(longKeep, far - level, level)));
            beginnings[n] = level / slow;
            bodies[n] = far / level;
        }

        (_level, _slowLine, _longLine) = (level, slow, far);
    }
}
