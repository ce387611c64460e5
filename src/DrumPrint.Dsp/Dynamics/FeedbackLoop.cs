using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Attack and release of a compressor whose detector sees its own output of the point before.</summary>
/// <remarks>
/// <para>Source: Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. (18): the loop asks for c = (R − 1)(y − T) when the output
/// level y is above the threshold T. It rests where c equals the reduction g in force. Since y is the input level x less g, that
/// is at g∞ = (1 − 1/R)(x − T). This is the curve of a feed-forward compressor of the same ratio, knee included.</para>
/// <para>A loop closed with slope R − 1 moves R times as fast as its detector. So a detector slowed down by R makes the dials
/// true. That detector's step is (1 − a)/R · (c − g). Since c − g = R (g∞ − g), it is (1 − a)(g∞ − g), and this is how it is
/// reckoned here. The factor in force is a at every ratio. R (1 − a) / R stays below 2, so the loop is stable up to 100:1. A
/// perfect limiter it cannot be: that would ask for an infinite slope. The peak hold keeps g∞, not c, or it would go on demanding
/// what the gain has meanwhile given.</para>
/// <para>While the output is below the knee the loop is open and asks for nothing. This holds even where the input is still
/// above the threshold. So after a partial drop the gain comes back sooner than that of a feed-forward compressor. This is a
/// feedback compressor's own way.</para>
/// <para>The loop goes in half steps; the point in the middle lies on the straight line between two points. Closed at whole steps
/// it lags too far. It then folds down up to 16 dB more than a loop closed at eight times the frame rate.</para>
/// </remarks>
internal sealed class FeedbackLoop
{
    /// <summary>Level in dB of what asks for nothing.</summary>
    public const double Silence = -1000;

    private readonly SmoothDecoupled _detector;
    private readonly double _foot;
    private readonly double _link;
    private Vector128<double> _level;
    private Vector128<double> _rest;
    private Vector128<double> _held;
    private Vector128<double> _reduction;

    /// <param name="attackPoints">Points after which a rise has come 63.2 % of its way.</param>
    /// <param name="releasePoints">The same for a fall.</param>
    /// <param name="foot">Level in dB above which the loop is closed.</param>
    /// <param name="link">How far two lanes are drawn together, 0 to 1.</param>
    public FeedbackLoop(double attackPoints, double releasePoints, double foot, double link)
    {
        (_foot, _link, _level) = (foot, link, Vector128.Create(foot));

        // An output is heard a step late, so the loop's own times are that much shorter.
        _detector = new SmoothDecoupled(new Ballistics((2 * attackPoints) - 1, (2 * releasePoints) - 1));
    }

    /// <summary>Whether nothing is turned down and nothing of the past is left.</summary>
    public bool IsAtRest => Vector128.EqualsAll(_rest + _held + _reduction, Vector128<double>.Zero);

    /// <summary>Replaces the reductions at which the loop would rest by those to apply, two lanes at a time; one lane goes
    /// in as both.</summary>
    /// <param name="levels1">Input level in dB of the first lane. The output's is this less the reduction given.</param>
    /// <param name="levels2">The same of the second.</param>
    /// <param name="reductions1">The static curve at those levels.</param>
    /// <param name="reductions2">The same of the second.</param>
    /// <param name="points">How many rows each of them has, one for each point of a frame.</param>
    /// <param name="stride">Distance between rows.</param>
    /// <param name="frames">Frames that count.</param>
    public void Follow(ReadOnlySpan<double> levels1, ReadOnlySpan<double> levels2, Span<double> reductions1, Span<double> reductions2, int points, int stride, int frames)
    {
        var (detector, level, rest) = (_detector, _level, _rest);
        var (held, reduction) = (_held, _reduction);
        ref var level1 = ref MemoryMarshal.GetReference(levels1);
        ref var level2 = ref MemoryMarshal.GetReference(levels2);
        ref var a = ref MemoryMarshal.GetReference(reductions1);
        ref var b = ref MemoryMarshal.GetReference(reductions2);
        var feet = Vector128.Create(_foot);
        var half = Vector128.Create(0.5);
        var openFill = detector.Fill(Vector128<double>.Zero);
        for (var n = 0; n < frames; n++)
        {
            for (var i = n; i < points * stride; i += stride)
            {
                // What is under the knee counts as its foot, so that how far under never shows in the middle of a step.
                var nextLevel = Vector128.MaxNative(Vector128.Create(Unsafe.Add(ref level1, i), Unsafe.Add(ref level2, i)), feet);
                var nextRest = Vector128.Create(Unsafe.Add(ref a, i), Unsafe.Add(ref b, i));
                held = Held(held, level, rest, reduction, feet, openFill);
                reduction = detector.Smooth(reduction, held);
                held = Held(held, (level + nextLevel) * half, (rest + nextRest) * half, reduction, feet, openFill);
                reduction = detector.Smooth(reduction, held);
                (level, rest) = (nextLevel, nextRest);
                Unsafe.Add(ref a, i) = reduction.GetElement(0);
                Unsafe.Add(ref b, i) = reduction.GetElement(1);
            }
        }

        (_level, _rest, _held, _reduction) = (level, rest, held, reduction);
    }

    private static Vector128<double> Swapped(Vector128<double> lanes) => Vector128.Shuffle(lanes, Vector128.Create(1L, 0L));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector128<double> Held(
        Vector128<double> held, Vector128<double> level, Vector128<double> rest, Vector128<double> reduction, Vector128<double> feet, Vector128<double> openFill)
    {
        if (_link > 0)
        {
            return _detector.Hold(held, AskedTogether(level, rest, reduction, feet));
        }

        var isClosed = Vector128.GreaterThan(level - reduction, feet);
        return _detector.Hold(held, rest & isClosed, Vector128.ConditionalSelect(isClosed, _detector.Fill(rest), openFill));
    }

    // A lane that the other draws down hears itself raised by as much of the other's level, or it would take itself for
    // silent.
    private Vector128<double> AskedTogether(Vector128<double> level, Vector128<double> rest, Vector128<double> reduction, Vector128<double> feet)
    {
        var links = Vector128.Create(_link);
        var louder = Vector128.MaxNative(level, Swapped(level));
        var heard = Vector128.FusedMultiplyAdd(links, louder - level, level) - reduction;
        var asked = rest & Vector128.GreaterThan(heard, feet);
        var most = Vector128.MaxNative(asked, Swapped(asked));
        return Vector128.FusedMultiplyAdd(links, most - asked, asked);
    }
}
