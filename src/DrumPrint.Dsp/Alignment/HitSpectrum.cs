namespace DrumPrint.Dsp.Alignment;

/// <summary>The spectrum of one hit.</summary>
internal sealed class HitSpectrum(int bins)
{
    // Edges of the stretch of bins that count as one when powers are smoothed: a third of an octave.
    private const double Lower = 0.89;
    private const double Upper = 1.12;

    public double[] Re { get; } = new double[bins];

    public double[] Im { get; } = new double[bins];

    public double Power(int bin) => (Re[bin] * Re[bin]) + (Im[bin] * Im[bin]);

    /// <summary>Power around each bin, the mean of a third of an octave.</summary>
    public double[] SmoothPower()
    {
        var sums = new double[bins + 1];
        for (var k = 0; k < bins; k++)
        {
            sums[k + 1] = sums[k] + Power(k);
        }

        var result = new double[bins];
        for (var k = 0; k < bins; k++)
        {
            var (first, last) = ((int)(k * Lower), Math.Min(bins, (int)(k * Upper) + 1));
            result[k] = Math.Max(0, sums[last] - sums[first]) / (last - first);
        }

        return result;
    }
}
