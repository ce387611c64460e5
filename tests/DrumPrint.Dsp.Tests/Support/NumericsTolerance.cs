namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Tolerances of the elementary functions, each with its reason.</summary>
internal static class NumericsTolerance
{
    /// <summary>
    /// The bound each function states in its own comment, in ulp. It lies over the largest error that sweeps of a million
    /// arguments and searches round their worst found. Where results can be subnormal, and so are rounded twice, it allows
    /// ½ and half the error of a normal one.
    /// </summary>
    public static readonly IReadOnlyDictionary<string, double> MaxUlp = new Dictionary<string, double>
    {
        ["Exp"] = 0.8,
        ["Exp2"] = 0.8,
        ["Expm1"] = 0.7,
        ["Log"] = 0.7,
        ["Log2"] = 0.8,
        ["Log10"] = 0.7,
        ["Log1p"] = 0.7,
        ["Pow"] = 0.8,
        ["Sin"] = 0.8,
        ["Cos"] = 0.8,
        ["Tan"] = 0.9,
        ["Tanh"] = 0.65,
        ["Atan"] = 0.6,
        ["BesselI0"] = 0.51,
        ["ToGain"] = 0.8,
        ["FromGain"] = 0.75,
    };

    /// <summary>e^(ln x) carries the rounding of ln x, at most ½ ulp of 709 (2⁻⁴⁴), and one more of its own.</summary>
    public const double RoundTrip = 6e-14;

    /// <summary>sin² + cos²: two values within 1 ulp, squared and added.</summary>
    public const double UnitCircle = 4e-16;

    /// <summary>Mean of 100,000 uniform draws from −1 to 1: five standard deviations, 5 · √(1/3) / √100000.</summary>
    public const double NoiseMean = 0.0092;

    /// <summary>Mean square of 100,000 such draws, 1/3: five standard deviations, 5 · √(4/45) / √100000.</summary>
    public const double NoisePower = 0.0048;
}
