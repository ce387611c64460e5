namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Every tolerance of these tests, each with its reason.</summary>
internal static class Tolerance
{
    /// <summary>A handful of roundings of values near 1 in 64-bit arithmetic.</summary>
    public const double Rounding = 1e-12;

    /// <summary>Linear filters against their formula in dB: room for the cut-off of a measured impulse response.</summary>
    public const double ResponseDb = 1e-3;
}
