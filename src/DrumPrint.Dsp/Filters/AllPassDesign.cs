using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Filters;

/// <summary>Second-order sections that turn the phase and leave every level as it is.</summary>
/// <remarks>
/// The analog all-passes of the Audio EQ Cookbook (W3C note) and, of first order, (1 − s) / (1 + s), by the bilinear transform
/// with its frequency put right. The numerator is the denominator read backwards, so the level stays whatever the coefficients
/// are: Regalia, Mitra and Vaidyanathan, "The Digital All-Pass Filter: A Versatile Signal Processing Building Block", Proceedings of
/// the IEEE 76(1), 1988 (from memory).
/// </remarks>
public static class AllPassDesign
{
    /// <summary>Turns by 90° at a frequency and by 180° far above: −2 · atan Ω, Ω = tan(π f / rate) / tan(π freqHz / rate).</summary>
    public static BiquadCoefficients FirstOrder(double freqHz, int sampleRate)
    {
        var t = Corner(freqHz, sampleRate);
        var d0 = t + 1;

        // A second pole lies at z = 0, and a zero on it.
        return new((t - 1) / d0, ((3 * t) - 1) / d0, 2 * t / d0, ((3 * t) + 1) / d0, 2 * t / d0);
    }

    /// <summary>Turns by 180° at a frequency and by 360° far above: −2 · atan(Ω / q / (1 − Ω²)).</summary>
    public static BiquadCoefficients SecondOrder(double freqHz, double q, int sampleRate)
    {
        var t = Corner(freqHz, sampleRate);
        var (damping, square) = (t / q, t * t);
        var d0 = 1 + damping + square;
        return new((1 - damping + square) / d0, ((4 * square) - (2 * damping)) / d0, 4 * square / d0, ((4 * square) + (2 * damping)) / d0, 4 * square / d0);
    }

    private static double Corner(double freqHz, int sampleRate)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(freqHz);
        BiquadDesign.CheckFrequency(freqHz, sampleRate);
        return Elementary.Tan(Math.PI * freqHz / sampleRate);
    }
}
