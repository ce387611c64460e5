using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Gives the reduction a compressor asks for its attack and release, two lanes at a time.</summary>
/// <remarks>The one lane of a mono or fully linked compressor goes in as both.</remarks>
internal sealed class ReductionFollower(Ballistics ballistics)
{
    private readonly SmoothDecoupled _detector = new(ballistics);
    private Vector128<double> _held;
    private Vector128<double> _reduction;

    /// <summary>Whether nothing is turned down and nothing of the past is left.</summary>
    public bool IsAtRest => Vector128.EqualsAll(_held + _reduction, Vector128<double>.Zero);

    /// <summary>Replaces the reductions asked for by those to apply.</summary>
    public void Follow(Span<double> first, Span<double> second)
    {
        if (_detector.IsEven)
        {
            FollowEvenly(first, second);
        }
        else
        {
            FollowUnevenly(first, second);
        }
    }

    // Each frame waits for the one before, so a step less in it is worth a loop of its own.
    private void FollowEvenly(Span<double> first, Span<double> second)
    {
        var (detector, held, reduction) = (_detector, _held, _reduction);
        ref var a = ref MemoryMarshal.GetReference(first);
        ref var b = ref MemoryMarshal.GetReference(second);
        for (var i = 0; i < first.Length; i++)
        {
            held = detector.Hold(held, Vector128.Create(Unsafe.Add(ref a, i), Unsafe.Add(ref b, i)));
            reduction = detector.SmoothEvenly(reduction, held);
            Unsafe.Add(ref a, i) = reduction.GetElement(0);
            Unsafe.Add(ref b, i) = reduction.GetElement(1);
        }

        (_held, _reduction) = (held, reduction);
    }

    private void FollowUnevenly(Span<double> first, Span<double> second)
    {
        var (detector, held, reduction) = (_detector, _held, _reduction);
        ref var a = ref MemoryMarshal.GetReference(first);
        ref var b = ref MemoryMarshal.GetReference(second);
        for (var i = 0; i < first.Length; i++)
        {
            held = detector.Hold(held, Vector128.Create(Unsafe.Add(ref a, i), Unsafe.Add(ref b, i)));
            reduction = detector.Smooth(reduction, held);
            Unsafe.Add(ref a, i) = reduction.GetElement(0);
            Unsafe.Add(ref b, i) = reduction.GetElement(1);
        }

        (_held, _reduction) = (held, reduction);
    }
}
