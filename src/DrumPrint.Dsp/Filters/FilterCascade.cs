namespace DrumPrint.Dsp.Filters;

/// <summary>Second-order sections one after another, for one channel.</summary>
public sealed class FilterCascade(IReadOnlyList<BiquadCoefficients> sections)
{
    private readonly Biquad[] _sections = [.. sections.Select(s => new Biquad(s))];
    private int _untilFlush = Biquad.FlushFrames;

    /// <summary>Frames until the filter has rung off, an upper bound.</summary>
    public long TailFrames { get; } = FilterTail.Frames(sections);

    /// <summary>Filters one sample.</summary>
    public double Next(double x)
    {
        foreach (ref var section in _sections.AsSpan())
        {
            x = section.Next(x);
        }

        Advance(1);
        return x;
    }

    /// <summary>Filters a stretch in place.</summary>
    public void Process(Span<double> samples)
    {
        while (!samples.IsEmpty)
        {
            var stretch = samples[..Math.Min(samples.Length, _untilFlush)];
            var section = 0;
            for (; section + 1 < _sections.Length; section += 2)
            {
                Biquad.Process(ref _sections[section], ref _sections[section + 1], stretch);
            }

            if (section < _sections.Length)
            {
                _sections[section].Process(stretch);
            }

            Advance(stretch.Length);
            samples = samples[stretch.Length..];
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
