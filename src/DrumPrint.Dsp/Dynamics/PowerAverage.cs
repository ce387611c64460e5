namespace DrumPrint.Dsp.Dynamics;

/// <summary>The running mean square of one channel.</summary>
/// <remarks>Source: Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. (10): y²[n] = a y²[n−1] + (1 − a) x²[n]. A
/// sliver taken off each frame makes it end in zero, not in subnormal numbers.</remarks>
internal sealed class PowerAverage(double keep)
{
    private const double Sliver = 1e-60;

    private double _power;

    /// <summary>Replaces samples by the mean square up to each.</summary>
    public void Follow(Span<double> samples)
    {
        var power = _power;
        foreach (ref var sample in samples)
        {
            power = double.MaxNative(0, Math.FusedMultiplyAdd(keep, power, Math.FusedMultiplyAdd((1 - keep) * sample, sample, -Sliver)));
            sample = power;
        }

        _power = power;
    }
}
