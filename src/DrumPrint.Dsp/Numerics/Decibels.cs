namespace DrumPrint.Dsp.Numerics;

/// <summary>Conversion between amplitude and decibels (20 dB per factor of ten).</summary>
public static class Decibels
{
    private const double NepersPerDecibel = 0.11512925464970229;
    private const double DecibelsPerNeper = 8.685889638065037;

    /// <summary>Linear gain of a level in decibels; 0 for −∞.</summary>
    public static double ToGain(double decibels) => decibels == 0 ? 1 : Elementary.Exp(decibels * NepersPerDecibel);

    /// <summary>Level in decibels of a linear amplitude ≥ 0; −∞ for 0.</summary>
    public static double FromGain(double gain) => Elementary.Log(gain) * DecibelsPerNeper;
}
