namespace DrumPrint.Dsp.Masking;

/// <summary>The mean of the last few frames, by bands.</summary>
internal sealed class RecentMean(int bands, int frames)
{
    private readonly double[] _kept = new double[bands * frames];
    private int _at;

    /// <summary>The mean.</summary>
    public double[] Mean { get; } = new double[bands];

    /// <summary>Adds a frame, and forgets the oldest.</summary>
    public void Add(ReadOnlySpan<double> powers)
    {
        powers.CopyTo(_kept.AsSpan(_at, bands));
        _at = _at + bands == _kept.Length ? 0 : _at + bands;
        for (var band = 0; band < bands; band++)
        {
            // Oldest first, so that the sum never hangs on where in the memory it begins.
            var sum = 0.0;
            for (var frame = 0; frame < frames; frame++)
            {
                var place = _at + (frame * bands);
                sum += _kept[(place >= _kept.Length ? place - _kept.Length : place) + band];
            }

            Mean[band] = sum / frames;
        }
    }
}
