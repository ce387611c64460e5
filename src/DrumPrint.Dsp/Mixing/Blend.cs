using System.Numerics;

namespace DrumPrint.Dsp.Mixing;

/// <summary>Adds and scales stretches of samples, several at a time; each sample sees the same operations at any width.</summary>
public static class Blend
{
    /// <summary>target = source × gain.</summary>
    public static void Copy(ReadOnlySpan<double> source, double gain, Span<double> target)
    {
        var n = 0;
        for (; n <= source.Length - Vector<double>.Count; n += Vector<double>.Count)
        {
            (new Vector<double>(source[n..]) * gain).CopyTo(target[n..]);
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
        for (; n <= source.Length - Vector<double>.Count; n += Vector<double>.Count)
        {
            ((new Vector<double>(source[n..]) * gain) + Vector<double>.Zero).CopyTo(target[n..]);
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
        for (; n <= source.Length - Vector<double>.Count; n += Vector<double>.Count)
        {
            (new Vector<double>(target[n..]) + (new Vector<double>(source[n..]) * gain)).CopyTo(target[n..]);
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

    /// <summary>The largest magnitude, or <paramref name="floor"/> where that is larger.</summary>
    public static double Peak(ReadOnlySpan<double> source, double floor)
    {
        var n = 0;
        var peaks = new Vector<double>(floor);
        for (; n <= source.Length - Vector<double>.Count; n += Vector<double>.Count)
        {
            peaks = Vector.Max(peaks, Vector.Abs(new Vector<double>(source[n..])));
        }

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

    /// <summary>The largest difference, or <paramref name="floor"/> where that is larger.</summary>
    public static double LargestDifference(ReadOnlySpan<double> a, ReadOnlySpan<double> b, double floor)
    {
        var n = 0;
        var largest = new Vector<double>(floor);
        for (; n <= a.Length - Vector<double>.Count; n += Vector<double>.Count)
        {
            largest = Vector.Max(largest, Vector.Abs(new Vector<double>(a[n..]) - new Vector<double>(b[n..])));
        }

        for (var lane = 0; lane < Vector<double>.Count; lane++)
        {
            floor = Math.Max(floor, largest[lane]);
        }

        for (; n < a.Length; n++)
        {
            floor = Math.Max(floor, Math.Abs(a[n] - b[n]));
        }

        return floor;
    }
}
