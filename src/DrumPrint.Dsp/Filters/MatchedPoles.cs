namespace DrumPrint.Dsp.Filters;

/// <summary>Analog sections turned into digital ones root by root, z = e^s, and what is then left to be made up for.</summary>
/// <remarks>The matched z-transform (textbook). What it leaves is smooth up to half the sample rate, because every pole and zero
/// that matters is where it should be. <see cref="CorrectionFit"/> makes up for it.</remarks>
internal sealed class MatchedPoles
{
    private readonly List<AnalogRoot> _zeros = [];
    private readonly List<AnalogRoot> _poles = [];
    private readonly List<BiquadCoefficients> _sections = [];

    public MatchedPoles(IEnumerable<AnalogBand> bands, int sampleRate)
    {
        foreach (var band in bands)
        {
            var corner = 2 * Math.PI * band.FreqHz / sampleRate;
            var gain = band.Gain;
            foreach (var section in band.Sections)
            {
                _sections.Add(Section(section, corner).Times(gain));
                gain = 1;
            }
        }
    }

    public IReadOnlyList<BiquadCoefficients> Sections => _sections;

    /// <summary>How many more poles than zeros there are: each adds up to a frame of delay that the sections lack.</summary>
    public int MissingZeros => _poles.Count - _zeros.Count;

    /// <summary>The analog response over that of the sections at an angle ω in radians per sample; 1 at 0 Hz.</summary>
    public ComplexValue RatioAt(double omega)
    {
        ComplexValue ratio = 1;
        foreach (var zero in _zeros)
        {
            ratio *= zero.RatioAt(omega);
        }

        foreach (var pole in _poles)
        {
            ratio /= pole.RatioAt(omega);
        }

        return ratio;
    }

    private BiquadCoefficients Section(AnalogSection analog, double corner)
    {
        var (zeros, numerator) = Roots(analog.N2, analog.N1, analog.N0, corner);
        var (poles, denominator) = Roots(analog.D2, analog.D1, analog.D0, corner);
        _zeros.AddRange(zeros);
        _poles.AddRange(poles);
        ComplexValue gain = numerator / denominator;
        foreach (var zero in zeros)
        {
            gain *= zero.Quotient(0);
        }

        foreach (var pole in poles)
        {
            gain /= pole.Quotient(0);
        }

        // A root that is not there lies at z = 0.
        var (n1, n2) = Quadratic(zeros);
        var (d1, d2) = Quadratic(poles);
        return new BiquadCoefficients(1, n1, n2, d1, d2).Times(gain.Re);
    }

    // −(δ1 + δ2) and δ1 δ2.
    private static (double First, double Second) Quadratic(AnalogRoot[] roots)
    {
        var a = roots.Length > 0 ? roots[0].Delta : -1;
        var b = roots.Length > 1 ? roots[1].Delta : -1;
        return (-(a + b).Re, (a * b).Re);
    }

    // The roots of c2 s² + c1 s + c0 with s in corners, and the factor before (s − root1)(s − root2) in radians per sample.
    private static (AnalogRoot[] Roots, double Leading) Roots(double c2, double c1, double c0, double corner)
    {
        if (c2 != 0)
        {
            var t = -(c1 + new ComplexValue((c1 * c1) - (4 * c2 * c0), 0).SquareRoot()) * 0.5;
            var second = t.Power == 0 ? 0 : c0 / t;
            return ([new(t / c2 * corner), new(second * corner)], c2 / (corner * corner));
        }

        return c1 != 0 ? ([new((ComplexValue)(-c0 / c1 * corner))], c1 / corner) : ([], c0);
    }
}
