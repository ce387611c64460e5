using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Filters;

/// <summary>Second-order sections one after another, for left and right at once.</summary>
/// <remarks>Left and right lie in the two lanes of a vector and go through the same operations as in
/// <see cref="FilterCascade"/>, so the bits are the same. Two sections run in one pass: each waits for its own last
/// result, and the processor fills the wait with the other.</remarks>
public sealed class StereoFilterCascade(IReadOnlyList<BiquadCoefficients> sections)
{
    private readonly StereoSection[] _sections = [.. sections.Select(s => new StereoSection(new Biquad(s)))];
    private readonly Vector128<double>[] _frames = new Vector128<double>[Biquad.FlushFrames];
    private int _untilFlush = Biquad.FlushFrames;

    /// <summary>Frames until the filter has rung off, an upper bound.</summary>
    public long TailFrames { get; } = FilterTail.Frames(sections);

    /// <summary>Filters a stretch in place; both spans have the same length.</summary>
    public void Process(Span<double> left, Span<double> right)
    {
        while (!left.IsEmpty)
        {
            var count = Math.Min(left.Length, _untilFlush);
            var frames = _frames.AsSpan(0, count);
            for (var i = 0; i < frames.Length; i++)
            {
                frames[i] = Vector128.Create(left[i], right[i]);
            }

            Process(frames);
            for (var i = 0; i < frames.Length; i++)
            {
                left[i] = frames[i].GetElement(0);
                right[i] = frames[i].GetElement(1);
            }

            Advance(count);
            left = left[count..];
            right = right[count..];
        }
    }

    private static void One(ref StereoSection section, Span<Vector128<double>> frames)
    {
        var (b0, g1, g2, keep, d2) = (section.B0, section.G1, section.G2, section.Keep, section.D2);
        var (s1, s2) = (section.S1, section.S2);
        foreach (ref var frame in frames)
        {
            var x = frame;
            frame = Vector128.FusedMultiplyAdd(b0, x, s1);
            var next = Vector128.FusedMultiplyAdd(keep, s1, Vector128.FusedMultiplyAdd(g1, x, s2));
            s2 = Vector128.FusedMultiplyAdd(d2, s1, Vector128.FusedMultiplyAdd(g2, x, s2));
            s1 = next;
        }

        (section.S1, section.S2) = (s1, s2);
    }

    private static void Two(ref StereoSection first, ref StereoSection second, Span<Vector128<double>> frames)
    {
        var (b0, g1, g2, keep, d2) = (first.B0, first.G1, first.G2, first.Keep, first.D2);
        var (s1, s2) = (first.S1, first.S2);
        var (c0, h1, h2, hold, e2) = (second.B0, second.G1, second.G2, second.Keep, second.D2);
        var (t1, t2) = (second.S1, second.S2);
        foreach (ref var frame in frames)
        {
            var x = frame;
            var y = Vector128.FusedMultiplyAdd(b0, x, s1);
            var next = Vector128.FusedMultiplyAdd(keep, s1, Vector128.FusedMultiplyAdd(g1, x, s2));
            s2 = Vector128.FusedMultiplyAdd(d2, s1, Vector128.FusedMultiplyAdd(g2, x, s2));
            s1 = next;
            frame = Vector128.FusedMultiplyAdd(c0, y, t1);
            next = Vector128.FusedMultiplyAdd(hold, t1, Vector128.FusedMultiplyAdd(h1, y, t2));
            t2 = Vector128.FusedMultiplyAdd(e2, t1, Vector128.FusedMultiplyAdd(h2, y, t2));
            t1 = next;
        }

        (first.S1, first.S2) = (s1, s2);
        (second.S1, second.S2) = (t1, t2);
    }

    private void Process(Span<Vector128<double>> frames)
    {
        var section = 0;
        for (; section + 1 < _sections.Length; section += 2)
        {
            Two(ref _sections[section], ref _sections[section + 1], frames);
        }

        if (section < _sections.Length)
        {
            One(ref _sections[section], frames);
        }
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
