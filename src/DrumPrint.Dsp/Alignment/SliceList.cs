namespace DrumPrint.Dsp.Alignment;

/// <summary>A long list of energies that grows without being copied, four bytes each: a kit of 25 microphones keeps three of them for each.</summary>
internal sealed class SliceList
{
    private const int PartLength = 1 << 13;

    private readonly List<float[]> _parts = [];

    public int Count { get; private set; }

    public void Add(double energy)
    {
        if (Count == _parts.Count * PartLength)
        {
            _parts.Add(new float[PartLength]);
        }

        _parts[^1][Count % PartLength] = (float)energy;
        Count++;
    }

    /// <summary>The sum of a stretch, added in order.</summary>
    public double Sum(int first, int end)
    {
        var sum = 0.0;
        while (first < end)
        {
            var part = _parts[first / PartLength].AsSpan(first % PartLength);
            part = part[..Math.Min(part.Length, end - first)];
            foreach (var energy in part)
            {
                sum += energy;
            }

            first += part.Length;
        }

        return sum;
    }
}
