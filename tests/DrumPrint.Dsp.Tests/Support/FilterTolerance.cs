namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Tolerances of the filter tests, each with its reason.</summary>
internal static class FilterTolerance
{
    /// <summary>Closed forms evaluated twice in 64-bit arithmetic, in dB.</summary>
    public const double ClosedFormDb = 1e-9;
}
