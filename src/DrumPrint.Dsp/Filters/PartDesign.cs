namespace DrumPrint.Dsp.Filters;

/// <summary>Sections that take one part out of a signal, such that the part and what is left of the signal add up to it.</summary>
/// <remarks>
/// Each is half the sum or the difference of the signal and an all-pass of it. Put back by a factor K, the part makes a bell or a shelf
/// whose top is K, and K may move while the coefficients stay: P. A. Regalia and S. K. Mitra, "Tunable Digital Frequency Response
/// Equalization Filters", IEEE Trans. Acoustics, Speech and Signal Processing 35(1), 1987 (from memory).
/// </remarks>
public static class PartDesign
{
    /// <summary>What lies around a frequency: level 1 there, 3 dB less at the edges of a band that is freqHz / q wide.</summary>
    public static BiquadCoefficients Around(double freqHz, double q, int sampleRate)
    {
        var all = AllPassDesign.SecondOrder(freqHz, q, sampleRate);
        return new((1 - all.B0) / 2, (all.D1 - all.N1) / 2, (all.D2 - all.N2) / 2, all.D1, all.D2);
    }

    /// <summary>What lies below a frequency, 6 dB per octave, 3 dB down there.</summary>
    public static BiquadCoefficients Below(double freqHz, int sampleRate)
    {
        var all = AllPassDesign.FirstOrder(freqHz, sampleRate);
        return new((1 + all.B0) / 2, (all.D1 + all.N1) / 2, (all.D2 + all.N2) / 2, all.D1, all.D2);
    }

    /// <summary>What lies above a frequency, 6 dB per octave, 3 dB down there.</summary>
    public static BiquadCoefficients Above(double freqHz, int sampleRate)
    {
        var all = AllPassDesign.FirstOrder(freqHz, sampleRate);
        return new((1 - all.B0) / 2, (all.D1 - all.N1) / 2, (all.D2 - all.N2) / 2, all.D1, all.D2);
    }
}
