namespace DrumPrint.Dsp.Tests.Support;

/// <summary>A number of about 106 bits as the sum of two doubles, to hold 64-bit arithmetic against.</summary>
/// <remarks>T. J. Dekker, A floating-point technique for extending the available precision, 1971 (from memory).</remarks>
internal readonly record struct DoubleDouble(double High, double Low)
{
    public static implicit operator DoubleDouble(double x) => new(x, 0);

    public static DoubleDouble operator +(DoubleDouble a, DoubleDouble b)
    {
        var sum = a.High + b.High;
        var part = sum - a.High;
        var error = (a.High - (sum - part)) + (b.High - part) + a.Low + b.Low;
        var high = sum + error;
        return new(high, error - (high - sum));
    }

    public static DoubleDouble operator -(DoubleDouble a) => new(-a.High, -a.Low);

    public static DoubleDouble operator -(DoubleDouble a, DoubleDouble b) => a + (-b);

    public static DoubleDouble operator *(DoubleDouble a, DoubleDouble b)
    {
        var product = a.High * b.High;
        var error = Math.FusedMultiplyAdd(a.High, b.High, -product) + (a.High * b.Low) + (a.Low * b.High);
        var high = product + error;
        return new(high, error - (high - product));
    }
}
