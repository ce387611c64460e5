namespace DrumPrint.Dsp.Filters;

/// <summary>A second-order filter for one channel.</summary>
/// <remarks>
/// The transposed direct form in δ = z − 1 as state equations: the states hold differences, so rounding noise is not
/// amplified when the poles crowd around z = 1 (20 Hz at 192 kHz), as it is in the ordinary direct forms.
/// </remarks>
public struct Biquad
{
    /// <summary>States are looked at every so many frames and set to zero once they are below hearing by thousands of
    /// decibels, before they become subnormal numbers, which processors handle slowly.</summary>
    internal const int FlushFrames = 64;

    internal const double Negligible = 1e-100;

    private readonly double _b0;
    private readonly double _g1;
    private readonly double _g2;
    private readonly double _keep;
    private readonly double _d2;
    private double _s1;
    private double _s2;

    public Biquad(BiquadCoefficients coefficients)
    {
        _b0 = coefficients.B0;
        _g1 = Math.FusedMultiplyAdd(-coefficients.D1, coefficients.B0, coefficients.N1);
        _g2 = Math.FusedMultiplyAdd(-coefficients.D2, coefficients.B0, coefficients.N2);
        _keep = 1 - coefficients.D1;
        _d2 = -coefficients.D2;
    }

    /// <summary>Filters one sample.</summary>
    public double Next(double x)
    {
        var y = Math.FusedMultiplyAdd(_b0, x, _s1);
        var s1 = Math.FusedMultiplyAdd(_keep, _s1, Math.FusedMultiplyAdd(_g1, x, _s2));
        _s2 = Math.FusedMultiplyAdd(_d2, _s1, Math.FusedMultiplyAdd(_g2, x, _s2));
        _s1 = s1;
        return y;
    }

    /// <summary>Filters a stretch in place.</summary>
    public void Process(Span<double> samples)
    {
        var local = this;
        foreach (ref var sample in samples)
        {
            sample = local.Next(sample);
        }

        this = local;
    }

    /// <summary>Sets states that have faded away to zero.</summary>
    public void Flush()
    {
        _s1 = Math.Abs(_s1) < Negligible ? 0 : _s1;
        _s2 = Math.Abs(_s2) < Negligible ? 0 : _s2;
    }
}
