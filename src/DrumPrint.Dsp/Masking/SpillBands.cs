namespace DrumPrint.Dsp.Masking;

/// <summary>Neighbouring bins in which a path between two microphones counts as one: an eighth of their frequency wide, one bin at least.</summary>
internal sealed class SpillBands
{
    private const double Width = 0.125;

    private readonly int[] _starts;

    /// <param name="bins">Bins of a spectrum.</param>
    public SpillBands(int bins)
    {
        var starts = new List<int>();
        for (var bin = 0; bin < bins; bin += Math.Max(1, (int)(bin * Width)))
        {
            starts.Add(bin);
        }

        starts.Add(bins);
        _starts = [.. starts];
    }

    /// <summary>How many there are.</summary>
    public int Count => _starts.Length - 1;

    /// <summary>First bin of a band; that of the one past the last is the number of bins.</summary>
    public int this[int band] => _starts[band];

    /// <summary>Mean power of each band.</summary>
    public void Mean(ReadOnlySpan<double> bins, Span<double> bands)
    {
        for (var band = 0; band < Count; band++)
        {
            var sum = 0.0;
            for (var bin = _starts[band]; bin < _starts[band + 1]; bin++)
            {
                sum += bins[bin];
            }

            bands[band] = sum / (_starts[band + 1] - _starts[band]);
        }
    }
}
