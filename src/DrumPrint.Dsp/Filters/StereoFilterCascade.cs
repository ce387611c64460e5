using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Filters;

/// <summary>Second-order sections one after another, for left and right at once.</summary>
/// <remarks>Left and right lie in the two lanes of a vector. They go through the same operations as in
/// <see cref="FilterCascade"/>, so the bits are the same. Two sections run in one pass: each waits for its own last
/// result, and the processor fills the wait with the other.</remarks>
public sealed class StereoFilterCascade(IReadOnlyList<BiquadCoefficients> sections)
{
    private readonly StereoSection[] _sections = [.. sections.Select(s => new StereoSection(new Biquad(s)))];
    private int _untilFlush = Biquad.FlushFrames;

    /// <summary>Frames until the filter has rung off, an upper bound.</summary>
    public long TailFrames { get; } = FilterTail.Frames(sections);

    /// <summary>Filters a stretch in place; both spans have the same length.</summary>
    public void Process(Span<double> left, Span<double> right)
    {
        right = right[..left.Length];
        while (!left.IsEmpty)
        {
            var count = Math.Min(left.Length, _untilFlush);
            var section = 0;
            for (; section + 1 < _sections.Length; section += 2)
            {
                Two(ref _sections[section], ref _sections[section + 1], left[..count], right[..count]);
            }

            if (section < _sections.Length)
            {
                One(ref _sections[section], left[..count], right[..count]);
            }

            Advance(count);
            left = left[count..];
            right = right[count..];
        }
    }

    private static void One(ref StereoSection section, Span<double> left, Span<double> right)
    {
        ref var l = ref MemoryMarshal.GetReference(left);
        ref var r = ref MemoryMarshal.GetReference(right);
        var (b0, g1, g2, keep, d2) = (section.B0, section.G1, section.G2, section.Keep, section.D2);
        var (s1, s2) = (section.S1, section.S2);
        for (var n = 0; n < left.Length; n++)
        {
            var x = Load(ref l, ref r, n);
            Store(Vector128.FusedMultiplyAdd(b0, x, s1), ref l, ref r, n);
            var next = Vector128.FusedMultiplyAdd(keep, s1, Vector128.FusedMultiplyAdd(g1, x, s2));
            s2 = Vector128.FusedMultiplyAdd(d2, s1, Vector128.FusedMultiplyAdd(g2, x, s2));
            s1 = next;
        }

        (section.S1, section.S2) = (s1, s2);
    }

    private static void Two(ref StereoSection first, ref StereoSection second, Span<double> left, Span<double> right)
    {
        ref var l = ref MemoryMarshal.GetReference(left);
        ref var r = ref MemoryMarshal.GetReference(right);
        var (b0, g1, g2, keep, d2) = (first.B0, first.G1, first.G2, first.Keep, first.D2);
        var (s1, s2) = (first.S1, first.S2);
        var (c0, h1, h2, hold, e2) = (second.B0, second.G1, second.G2, second.Keep, second.D2);
        var (t1, t2) = (second.S1, second.S2);
        for (var n = 0; n < left.Length; n++)
        {
            var x = Load(ref l, ref r, n);
            var y = Vector128.FusedMultiplyAdd(b0, x, s1);
            var next = Vector128.FusedMultiplyAdd(keep, s1, Vector128.FusedMultiplyAdd(g1, x, s2));
            s2 = Vector128.FusedMultiplyAdd(d2, s1, Vector128.FusedMultiplyAdd(g2, x, s2));
            s1 = next;
            Store(Vector128.FusedMultiplyAdd(c0, y, t1), ref l, ref r, n);
            next = Vector128.FusedMultiplyAdd(hold, t1, Vector128.FusedMultiplyAdd(h1, y, t2));
            t2 = Vector128.FusedMultiplyAdd(e2, t1, Vector128.FusedMultiplyAdd(h2, y, t2));
            t1 = next;
        }

        (first.S1, first.S2) = (s1, s2);
        (second.S1, second.S2) = (t1, t2);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<double> Load(ref double left, ref double right, int n) =>
        Vector128.Create(Unsafe.Add(ref left, n), Unsafe.Add(ref right, n));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store(Vector128<double> frame, ref double left, ref double right, int n)
    {
        Unsafe.Add(ref left, n) = frame.GetElement(0);
        Unsafe.Add(ref right, n) = frame.GetElement(1);
    }

    // Counted in frames from the start, so that where blocks are cut changes nothing.
    private void Advance(int frames)
    {
        _untilFlush -= frames;
        if (_untilFlush == 0)
        {
            _untilFlush = Biquad.FlushFrames;
            foreach (ref var section in _sections.AsSpan())
            {
                section.Flush();
            }
        }
    }
}
