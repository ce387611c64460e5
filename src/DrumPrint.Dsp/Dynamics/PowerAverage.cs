namespace DrumPrint.Dsp.Dynamics;

/// <summary>The running mean square of one channel.</summary>
/// <remarks>Source: Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. (10): y²[n] = a y²[n−1] + (1 − a) x²[n]. A
/// sliver taken off each point makes it end in zero, not in subnormal numbers.</remarks>
internal sealed class PowerAverage(double keep)
{
    private const double Sliver = 1e-60;

    private double _power;

    /// <summary>Replaces squared samples by the mean up to each.</summary>
    /// <param name="powers">Rows, one for each point of a frame.</param>
    /// <param name="points">How many rows.</param>
    /// <param name="stride">Distance between them.</param>
    /// <param name="frames">Frames that count.</param>
    public void Follow(double[] powers, int points, int stride, int frames)
    {
        var power = _power;
        for (var n = 0; n < frames; n++)
        {
            for (var i = n; i < points * stride; i += stride)
            {
                power = double.MaxNative(0, Math.FusedMultiplyAdd(keep, power, Math.FusedMultiplyAdd(1 - keep, powers[i], -Sliver)));
                powers[i] = power;
            }
        }

        _power = power;
    }
}
