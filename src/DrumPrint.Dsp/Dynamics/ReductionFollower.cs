using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Gives the reduction a compressor asks for its attack and release, two lanes at a time.</summary>
/// <remarks>The one lane of a mono or fully linked compressor goes in as both. A release can be so short against the attack that
/// a fall is kept shorter than a rise. The gain then follows the wave, and one hears where in the wave a rise takes over from a
/// fall. So that place is looked for in half steps. What is asked between two points lies on the straight line from one to the
/// other.</remarks>
internal sealed class ReductionFollower
{
    private readonly SmoothDecoupled _detector;
    private Vector128<double> _asked;
    private Vector128<double> _held;
    private Vector128<double> _reduction;

    /// <param name="attackPoints">Points after which a rise has come 63.2 % of its way.</param>
    /// <param name="releasePoints">The same for a fall.</param>
    public ReductionFollower(double attackPoints, double releasePoints)
    {
        var whole = new SmoothDecoupled(new Ballistics(attackPoints, releasePoints));
        _detector = whole.IsEven ? whole : new SmoothDecoupled(new Ballistics(2 * attackPoints, 2 * releasePoints));
    }

    /// <summary>Whether nothing is turned down and nothing of the past is left.</summary>
    public bool IsAtRest => Vector128.EqualsAll(_held + _reduction + _asked, Vector128<double>.Zero);

    /// <summary>Replaces the reductions asked for by those to apply.</summary>
    public void Follow(Span<double> first, Span<double> second) => Follow(first, second, 1, first.Length, first.Length);

    /// <summary>The same for rows, one for each point of a frame.</summary>
    /// <param name="first">The rows of the first lane.</param>
    /// <param name="second">The rows of the second.</param>
    /// <param name="points">How many rows.</param>
    /// <param name="stride">Distance between them.</param>
    /// <param name="frames">Frames that count.</param>
    public void Follow(Span<double> first, Span<double> second, int points, int stride, int frames)
    {
        if (_detector.IsEven)
        {
            FollowEvenly(first, second, points * stride, stride, frames);
        }
        else
        {
            FollowUnevenly(first, second, points * stride, stride, frames);
        }
    }

    // Each frame waits for the one before, so a step less in it is worth a loop of its own.
    private void FollowEvenly(Span<double> first, Span<double> second, int length, int stride, int frames)
    {
        var (detector, held, reduction) = (_detector, _held, _reduction);
        ref var a = ref MemoryMarshal.GetReference(first);
        ref var b = ref MemoryMarshal.GetReference(second);
        for (var n = 0; n < frames; n++)
        {
            for (var i = n; i < length; i += stride)
            {
                held = detector.Hold(held, Vector128.Create(Unsafe.Add(ref a, i), Unsafe.Add(ref b, i)));
                reduction = detector.SmoothEvenly(reduction, held);
                Unsafe.Add(ref a, i) = reduction.GetElement(0);
                Unsafe.Add(ref b, i) = reduction.GetElement(1);
            }
        }

        (_held, _reduction) = (held, reduction);
    }

    private void FollowUnevenly(Span<double> first, Span<double> second, int length, int stride, int frames)
    {
        var (detector, held, reduction, asked) = (_detector, _held, _reduction, _asked);
        var half = Vector128.Create(0.5);
        ref var a = ref MemoryMarshal.GetReference(first);
        ref var b = ref MemoryMarshal.GetReference(second);
        for (var n = 0; n < frames; n++)
        {
            for (var i = n; i < length; i += stride)
            {
                var next = Vector128.Create(Unsafe.Add(ref a, i), Unsafe.Add(ref b, i));
                held = detector.Hold(held, (asked + next) * half);
                reduction = detector.Smooth(reduction, held);
                held = detector.Hold(held, next);
                reduction = detector.Smooth(reduction, held);
                asked = next;
                Unsafe.Add(ref a, i) = reduction.GetElement(0);
                Unsafe.Add(ref b, i) = reduction.GetElement(1);
            }
        }

        (_held, _reduction, _asked) = (held, reduction, asked);
    }
}
