namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Tolerances of transforms, convolution and resampling, each with its reason.</summary>
internal static class SpectralTolerance
{
    /// <summary>−290 dB, root-mean-square against root-mean-square. It counts about 14 roundings of 64-bit numbers (2⁻⁵³
    /// each): the growth √(log₂ N) of a good transform, with room for N = 2¹⁸. Source: Higham, Accuracy and Stability of
    /// Numerical Algorithms, section on the fast Fourier transform, from memory. Worst seen: −306 dB.</summary>
    public const double Transform = 3.16e-15;

    /// <summary>Convolution against the direct sum, of the peak; the direct sum itself rounds once a tap. Worst seen: −279 dB; own bar, ten times that.</summary>
    public const double ConvolutionDb = -259;

    /// <summary>Pink noise through a levelled impulse against the noise itself, by a loudness meter: ten seconds of noise with a start
    /// and an end. Worst seen: 0.007 LU.</summary>
    public const double PinkLoudnessLu = 0.07;

    /// <summary>A click converted to another rate against the click, to 0.9 of the lower half rate: the rate filter's ripple, and what
    /// its window leaves out. Worst seen: 10⁻⁷.</summary>
    public const double ConvertedImpulse = 1e-6;

    /// <summary>Rate conversion against the sampling theorem, for a sine of level 1. Own bar: 24 bit ends at −146 dB, and what is
    /// converted is to lose nothing there by more than its own rounding.</summary>
    public const double RateConversionDb = -140;

    /// <summary>Decay time of a pure exponential, as a part of it. The response ends after 1.5 decay times, 90 dB down.
    /// That bends the curve by 1.4·10⁻⁵ dB at −35 dB.</summary>
    public const double DecayTime = 1e-4;
}
