namespace DrumPrint.Listening;

/// <summary>Parts of a recording, kept as they go by.</summary>
internal sealed class Stretches
{
    private readonly List<(long From, float[] Frames)> _parts = [];
    private int _next;

    /// <param name="wanted">Which, in order of time; those that touch become one.</param>
    public Stretches(IReadOnlyList<(long From, int Frames)> wanted)
    {
        for (var i = 0; i < wanted.Count;)
        {
            var (from, end) = (wanted[i].From, wanted[i].From + wanted[i].Frames);
            for (i++; i < wanted.Count && wanted[i].From <= end; i++)
            {
                end = Math.Max(end, wanted[i].From + wanted[i].Frames);
            }

            _parts.Add((from, new float[end - from]));
        }
    }

    /// <summary>Takes in the next frames of the recording, in order.</summary>
    public void Add(long frame, ReadOnlySpan<double> samples)
    {
        while (_next < _parts.Count && _parts[_next].From + _parts[_next].Frames.Length <= frame)
        {
            _next++;
        }

        for (var i = _next; i < _parts.Count && _parts[i].From < frame + samples.Length; i++)
        {
            var (from, frames) = _parts[i];
            var (begin, end) = (Math.Max(from, frame), Math.Min(from + frames.Length, frame + samples.Length));
            for (var n = begin; n < end; n++)
            {
                frames[n - from] = (float)samples[(int)(n - frame)];
            }
        }
    }

    /// <summary>Reads; silence outside what was kept.</summary>
    public void Read(long firstFrame, Span<double> into)
    {
        into.Clear();
        var (low, high) = (0, _parts.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = _parts[middle].From + _parts[middle].Frames.Length <= firstFrame ? (middle + 1, high) : (low, middle);
        }

        if (low == _parts.Count)
        {
            return;
        }

        var (from, frames) = _parts[low];
        for (var n = Math.Max(0, from - firstFrame); n < into.Length && firstFrame - from + n < frames.Length; n++)
        {
            into[(int)n] = frames[firstFrame - from + n];
        }
    }
}
