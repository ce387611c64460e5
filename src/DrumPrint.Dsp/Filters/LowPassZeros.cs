namespace DrumPrint.Dsp.Filters;

/// <summary>Chooses on which side of the unit circle the zeros of a low-pass lie.</summary>
/// <remarks>
/// A zero turned from z to 1/z leaves the magnitude as it is and adds delay. An analog low-pass lags more than a digital
/// one whose zeros all lie inside. So turning the right zeros brings the phase close as well. The phase counts when the
/// filtered sound is blended with the unfiltered.
/// </remarks>
internal static class LowPassZeros
{
    private const int GridPoints = 48;

    /// <summary>The sections with those zeros that follow the analog section most closely as a complex number.</summary>
    public static BiquadCoefficients[] Best(BiquadCoefficients[] sections, AnalogSection analog, (ComplexValue Near, ComplexValue Far) zeros, double freqHz, int sampleRate)
    {
        // Only a real zero can turn alone.
        if (zeros.Near.Im != 0)
        {
            return sections;
        }

        return Enumerable.Range(0, analog.Order == 1 ? 3 : 4)
            .Select(variant => Variant(sections, zeros.Near.Re, zeros.Far.Re, variant))
            .MinBy(v => WorstError(v, analog, freqHz, sampleRate))!;
    }

    // 0: none turned; 1: one near zero; 2: one far zero; 3: both near zeros.
    private static BiquadCoefficients[] Variant(BiquadCoefficients[] sections, double near, double far, int variant) =>
        sections.Length == 1
            ? [WithZeros(sections[0], variant == 1 ? Turned(near) : near, variant == 2 ? Turned(far) : far)]
            :
            [
                WithZeros(sections[0], variant is 1 or 3 ? Turned(near) : near, variant == 3 ? Turned(near) : near),
                WithZeros(sections[1], variant == 2 ? Turned(far) : far, far),
            ];

    private static double Turned(double delta) => -delta / (1 + delta);

    // Unity gain at 0 Hz.
    private static BiquadCoefficients WithZeros(BiquadCoefficients section, double first, double second)
    {
        var gain = section.D2 / (first * second);
        return section with { B0 = gain, N1 = -(first + second) * gain, N2 = section.D2 };
    }

    private static double WorstError(BiquadCoefficients[] sections, AnalogSection analog, double freqHz, int sampleRate)
    {
        var worst = 0.0;
        var top = Math.Min(20000, 0.4535 * sampleRate);
        for (var i = 1; i <= GridPoints; i++)
        {
            var freq = top * i / GridPoints;
            ComplexValue response = 1;
            foreach (var section in sections)
            {
                response *= section.ResponseAt(2 * Math.PI * freq / sampleRate);
            }

            worst = Math.Max(worst, (response - analog.ResponseAt(freq / freqHz)).Power);
        }

        return worst;
    }
}
