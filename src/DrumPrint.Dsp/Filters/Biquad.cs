namespace DrumPrint.Dsp.Filters;

/// <summary>A second-order filter for one channel.</summary>
/// <remarks>
/// The transposed direct form in δ = z − 1 as state equations. The states hold differences. So rounding noise is not
/// amplified when the poles crowd around z = 1 (20 Hz at 192 kHz). In the ordinary direct forms it is.
/// </remarks>
public struct Biquad
{
    /// <summary>States are looked at every so many frames. They are set to zero once they are below hearing by
    /// thousands of decibels. That is before they become subnormal numbers, which processors handle slowly.</summary>
    internal const int FlushFrames = 64;

    internal const double Negligible = 1e-100;

    private double _s1;
    private double _s2;

    public Biquad(BiquadCoefficients coefficients)
    {
        B0 = coefficients.B0;
        G1 = Math.FusedMultiplyAdd(-coefficients.D1, coefficients.B0, coefficients.N1);
        G2 = Math.FusedMultiplyAdd(-coefficients.D2, coefficients.B0, coefficients.N2);
        Keep = 1 - coefficients.D1;
        D2 = -coefficients.D2;
    }

    internal readonly double B0 { get; }

    internal readonly double G1 { get; }

    internal readonly double G2 { get; }

    internal readonly double Keep { get; }

    internal readonly double D2 { get; }

    /// <summary>Filters two sections over a stretch in one pass, which takes little longer than one. Each waits for its
    /// own last result, and the processor fills the wait with the other.</summary>
    public static void Process(ref Biquad first, ref Biquad second, Span<double> samples)
    {
        var (one, two) = (first, second);
        foreach (ref var sample in samples)
        {
            sample = two.Next(one.Next(sample));
        }

        (first, second) = (one, two);
    }

    /// <summary>Filters one sample.</summary>
    public double Next(double x)
    {
        var y = Math.FusedMultiplyAdd(B0, x, _s1);
        var next = Math.FusedMultiplyAdd(Keep, _s1, Math.FusedMultiplyAdd(G1, x, _s2));
        _s2 = Math.FusedMultiplyAdd(D2, _s1, Math.FusedMultiplyAdd(G2, x, _s2));
        _s1 = next;
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
