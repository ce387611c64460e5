namespace DrumPrint.Dsp.Filters;

/// <summary>
/// Makes the digital filter whose magnitude follows an analog section up to 20 kHz. The bilinear transform cramps it
/// below half the sample rate; this one does not.
/// </summary>
/// <remarks>
/// The analog power response is written in <see cref="MatchedWarp"/>, which doubles the order, and split into a stable
/// filter by closed formulas. Where the added section would change less than a five-hundredth of a decibel it is left out.
/// </remarks>
internal static class MatchedDesign
{
    private const double NegligiblePower = 1.00046; // 0.002 dB
    private const int GridPoints = 48;

    /// <summary>20 kHz at 44.1 kHz: no fit reaches higher.</summary>
    private const double HighestFit = 0.4535;

    /// <summary>Sections of an analog section with its corner at <paramref name="freqHz"/>.</summary>
    public static BiquadCoefficients[] Digital(AnalogSection analog, double freqHz, int sampleRate)
    {
        var warp = WarpFit.For(analog, freqHz, sampleRate);
        var corner = warp.At(BiquadCoefficients.Phi(freqHz / sampleRate));
        var zeros = RootGroups(warp, corner, analog.N2, analog.N1, analog.N0, analog.Order);
        var poles = RootGroups(warp, corner, analog.D2, analog.D1, analog.D0, analog.Order);
        var main = Section(zeros[0], poles[0]);
        BiquadCoefficients[] sections = analog.Order == 1
            ? [main]
            : [main, Section(zeros[1], poles[1])];

        var isHighPass = analog.N0 == 0;
        if (sections.Length == 2 && IsNegligible(sections[1], isHighPass, Math.Max(20000, freqHz) / sampleRate))
        {
            sections = [main];
        }

        if (analog is { N2: 0, N1: 0 })
        {
            sections = LowPassZeros.Best(sections, analog, warp.RootsOfInfinity(), freqHz, sampleRate);
        }

        // A high-pass is exact at half the sample rate, everything else at 0 Hz.
        var target = isHighPass ? analog.PowerAt(warp.At(1) / corner) : analog.PowerAt(0);
        var phi = isHighPass ? 1.0 : 0.0;
        var power = sections.Aggregate(1.0, (product, s) => product * s.PowerAt(phi));
        sections[0] = sections[0].Times(Math.Sqrt(target / power));
        return sections;
    }

    private static BiquadCoefficients Section((ComplexValue A, ComplexValue B) zeros, (ComplexValue A, ComplexValue B) poles) => new(
        1,
        -(zeros.A + zeros.B).Re,
        (zeros.A * zeros.B).Re,
        -(poles.A + poles.B).Re,
        (poles.A * poles.B).Re);

    // Two roots for each order: the pair for the main section, then the pair for the added one.
    private static (ComplexValue A, ComplexValue B)[] RootGroups(MatchedWarp warp, double corner, double c2, double c1, double c0, int order)
    {
        var pairs = new List<(ComplexValue Main, ComplexValue Extra)>(2);
        if (c2 != 0)
        {
            var discriminant = new ComplexValue((c1 * c1) - (4 * c2 * c0), 0).SquareRoot();
            var t = -(c1 + discriminant) * 0.5;
            pairs.Add(warp.Roots(t / c2, corner));
            pairs.Add(warp.Roots(t.Power == 0 ? 0 : c0 / t, corner));
        }
        else if (c1 != 0)
        {
            pairs.Add(warp.Roots(-c0 / c1, corner));
        }

        while (pairs.Count < order)
        {
            var (near, far) = warp.RootsOfInfinity();
            pairs.Add((near, far));
        }

        return order == 1
            ? [(pairs[0].Main, pairs[0].Extra)]
            : [(pairs[0].Main, pairs[1].Main), (pairs[0].Extra, pairs[1].Extra)];
    }

    // Measured from where the gain is set, over the audible range and the filter's own.
    private static bool IsNegligible(BiquadCoefficients section, bool isHighPass, double top)
    {
        var reference = section.PowerAt(isHighPass ? 1 : 0);
        var end = isHighPass ? 0.5 : Math.Min(top, HighestFit);
        for (var i = 0; i <= GridPoints; i++)
        {
            var ratio = section.PowerAt(BiquadCoefficients.Phi(end * i / GridPoints)) / reference;
            if (ratio is > NegligiblePower or < 1 / NegligiblePower)
            {
                return false;
            }
        }

        return true;
    }
}
