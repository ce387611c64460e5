namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Tolerances of the filter tests, each with its reason.</summary>
internal static class FilterTolerance
{
    /// <summary>Closed forms evaluated twice in 64-bit arithmetic, in dB.</summary>
    public const double ClosedFormDb = 1e-9;

    /// <summary>An added section that changes less than 0.002 dB is left out; otherwise corners are exact.</summary>
    public const double CornerDb = 0.002;

    /// <summary>Rounding noise of a filter, in dBFS; worst seen −268. Own bar, because a hundred filters in a row then stay far below the
    /// noise of a 24-bit file.</summary>
    public const double NoiseDb = -248;

    /// <summary>A filter and its inverse in series, 64-bit rounding in two recursions.</summary>
    public const double Undone = 1e-12;

    /// <summary>A fractional delay up to nine tenths of half the rate: the bar; below what 24 bits hold.</summary>
    public const double FractionalDelayDb = -140;

    /// <summary>A blend of dry and band against the analog sum at 48 kHz up to 15 kHz, in dB; worst seen 0.0002.</summary>
    public const double BlendDb = 0.002;

    /// <summary>A corrected design against analog as a vector, up to 20 kHz and for corners to 12 kHz. In dB of the larger of dry
    /// and band. Worst seen: −49.5 at 44.1 kHz.</summary>
    public const double Corrected44100Db = -46;

    /// <summary>The same at 48 kHz, worst seen −56.4.</summary>
    public const double Corrected48000Db = -53;

    /// <summary>The same at 88.2 kHz and above, worst seen −96 (88.2 kHz).</summary>
    public const double CorrectedHighRateDb = -80;

    /// <summary>Half a unit in the last digit of the weighting's tables, and the rounding of a sum.</summary>
    public const double LastDigit = 5e-15;

    /// <summary>Printed coefficients carry 12 or more digits.</summary>
    public const double Printed = 1e-11;

    /// <summary>Digital against analog up to 20 kHz, ±12 dB and q up to 2, worst seen 0.036 dB at 44.1 kHz (16 kHz shelf, q 2).</summary>
    public const double Matched44100Db = 0.04;

    /// <summary>The same at 48 kHz, worst seen 0.012 dB.</summary>
    public const double Matched48000Db = 0.013;

    /// <summary>The same at 88.2 kHz and above, worst seen 0.002 dB: a negligible section left out.</summary>
    public const double MatchedHighRateDb = 0.003;

    /// <summary>Shelves of q 4 to 8 resonate, and their steep flanks show small shifts in frequency. Worst seen: 0.081
    /// dB at 44.1 kHz and 0.026 dB at 48 kHz.</summary>
    public const double ResonantShelfFactor = 2.2;

    /// <summary>An all-pass or a turn: the bar, in dB, up to 0.45 of the rate.</summary>
    public const double AllPassDb = 0.001;

    /// <summary>The same in degrees of phase.</summary>
    public const double AllPassDegrees = 0.1;

    /// <summary>A turn and the turn back: two ripples of a right angle, −100 dB each and twice as high at a step of twice the height.</summary>
    public const double TurnedBack = 4e-5;

    /// <summary>Middle and side and back, or a transform and back: the rounding of sums of 64-bit numbers below 1.</summary>
    public const double ThereAndBack = 1e-14;

    /// <summary>A linear form against the minimum one, in dB: the bar. The design keeps half of it.</summary>
    public const double LinearDb = 0.02;

    /// <summary>What phase a linear form has left, in degrees: the rounding of a transform and of the sum that measures it.</summary>
    public const double LinearDegrees = 1e-6;

    /// <summary>Two linear forms of the same levels, one of them made of two that stand apart: 0.01 dB each.</summary>
    public const double LinearLevels = 0.004;

    /// <summary>The tolerance for a rate.</summary>
    public static double MatchedDb(int sampleRate) =>
        sampleRate >= 88200 ? MatchedHighRateDb : sampleRate >= 48000 ? Matched48000Db : Matched44100Db;
}
