namespace DrumPrint.Tests;

/// <summary>Every tolerance of these tests, each with its reason.</summary>
internal static class Tolerance
{
    /// <summary>A handful of roundings of values near 1 in 64-bit arithmetic.</summary>
    public const double Rounding = 1e-12;
}
