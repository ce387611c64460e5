using System.Numerics;
using System.Runtime.InteropServices;

namespace DrumPrint.Dsp.Mixing;

/// <summary>Adds and scales stretches of samples, several at a time; each sample sees the same operations at any width.</summary>
public static class Blend
{
    /// <summary>target = source × gain.</summary>
    public static void Copy(ReadOnlySpan<double> source, double gain, Span<double> target)
    {
        var n = 0;
        ref var from = ref MemoryMarshal.GetReference(source);
        ref var to = ref MemoryMarshal.GetReference(target[..source.Length]);
        for (; n <= source.Length - Vector<double>.Count; n += Vector<double>.Count)
        {
            (Vector.LoadUnsafe(ref from, (nuint)n) * gain).StoreUnsafe(ref to, (nuint)n);
        }

        for (; n < source.Length; n++)
        {
            target[n] = source[n] * gain;
        }
    }

    /// <summary>target = 0 + source × gain: what <see cref="Add(ReadOnlySpan{double}, double, Span{double})"/> would make of silence.</summary>
    public static void Begin(ReadOnlySpan<double> source, double gain, Span<double> target)
    {
        // Adding zero turns −0 into 0, as a sum does.
        var n = 0;
        ref var from = ref MemoryMarshal.GetReference(source);
        ref var to = ref MemoryMarshal.GetReference(target[..source.Length]);
        for (; n <= source.Length - Vector<double>.Count; n += Vector<double>.Count)
        {
            ((Vector.LoadUnsafe(ref from, (nuint)n) * gain) + Vector<double>.Zero).StoreUnsafe(ref to, (nuint)n);
        }

        for (; n < source.Length; n++)
        {
            target[n] = (source[n] * gain) + 0.0;
        }
    }

    /// <summary>target = target + source × gain, the product rounded before it is added.</summary>
    public static void Add(ReadOnlySpan<double> source, double gain, Span<double> target)
    {
        var n = 0;
        ref var from = ref MemoryMarshal.GetReference(source);
        ref var to = ref MemoryMarshal.GetReference(target[..source.Length]);
        for (; n <= source.Length - (2 * Vector<double>.Count); n += 2 * Vector<double>.Count)
        {
            var next = (nuint)(n + Vector<double>.Count);
            var first = Vector.LoadUnsafe(ref to, (nuint)n) + (Vector.LoadUnsafe(ref from, (nuint)n) * gain);
            var second = Vector.LoadUnsafe(ref to, next) + (Vector.LoadUnsafe(ref from, next) * gain);
            first.StoreUnsafe(ref to, (nuint)n);
            second.StoreUnsafe(ref to, next);
        }

        for (; n < source.Length; n++)
        {
            target[n] += source[n] * gain;
        }
    }

    /// <summary>target = target + source × gains, one gain for each sample.</summary>
    public static void Add(ReadOnlySpan<double> source, ReadOnlySpan<double> gains, Span<double> target)
    {
        var n = 0;
        for (; n <= source.Length - Vector<double>.Count; n += Vector<double>.Count)
        {
            (new Vector<double>(target[n..]) + (new Vector<double>(source[n..]) * new Vector<double>(gains[n..]))).CopyTo(target[n..]);
        }

        for (; n < source.Length; n++)
        {
            target[n] += source[n] * gains[n];
        }
    }

    /// <summary>Each takes the samples of the other; both have the same length.</summary>
    public static void Exchange(Span<double> one, Span<double> other)
    {
        var n = 0;
        ref var a = ref MemoryMarshal.GetReference(one);
        ref var b = ref MemoryMarshal.GetReference(other[..one.Length]);
        for (; n <= one.Length - Vector<double>.Count; n += Vector<double>.Count)
        {
            var held = Vector.LoadUnsafe(ref a, (nuint)n);
            Vector.LoadUnsafe(ref b, (nuint)n).StoreUnsafe(ref a, (nuint)n);
            held.StoreUnsafe(ref b, (nuint)n);
        }

        for (; n < one.Length; n++)
        {
            (one[n], other[n]) = (other[n], one[n]);
        }
    }

    /// <summary>The largest magnitude, or <paramref name="floor"/> where that is larger; not a number where one of them is not.</summary>
    public static double Peak(ReadOnlySpan<double> source, double floor)
    {
        var n = 0;
        ref var first = ref MemoryMarshal.GetReference(source);
        var peaks = new Vector<double>(floor);
        var morePeaks = peaks;
        var odd = Vector<double>.Zero;
        for (; n <= source.Length - (2 * Vector<double>.Count); n += 2 * Vector<double>.Count)
        {
            var value = Vector.LoadUnsafe(ref first, (nuint)n);
            var more = Vector.LoadUnsafe(ref first, (nuint)(n + Vector<double>.Count));
            peaks = Vector.MaxNative(peaks, Vector.Abs(value));
            morePeaks = Vector.MaxNative(morePeaks, Vector.Abs(more));
            odd += (value - value) + (more - more);
        }

        if (!Vector.EqualsAll(odd, Vector<double>.Zero))
        {
            // What is not a number or infinite the quick comparison may lose.
            n = 0;
            peaks = new Vector<double>(floor);
            morePeaks = peaks;
        }

        peaks = Vector.MaxNative(peaks, morePeaks);
        for (var lane = 0; lane < Vector<double>.Count; lane++)
        {
            floor = Math.Max(floor, peaks[lane]);
        }

        for (; n < source.Length; n++)
        {
            floor = Math.Max(floor, Math.Abs(source[n]));
        }

        return floor;
    }
}
