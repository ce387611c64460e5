using System.Globalization;

namespace DrumPrint.Conformance;

/// <summary>What a measured figure is held against, and how both are written.</summary>
/// <param name="Expected">The expected figure, in words for the sheet.</param>
/// <param name="Tolerance">How far off it may be, in words for the sheet.</param>
/// <param name="Unit">Unit of the measured figure.</param>
/// <param name="Digits">Decimals of the measured figure; few enough that every machine finds the same.</param>
/// <param name="IsMet">Whether a figure meets the bar.</param>
internal sealed record Bar(string Expected, string Tolerance, string Unit, int Digits, Func<double, bool> IsMet)
{
    /// <summary>Figures below are not told apart: rounding noise that another machine may find elsewhere.</summary>
    public double Floor { get; init; } = double.NegativeInfinity;

    public static Bar Near(double expected, double tolerance, string unit, int digits) =>
        new(Number(expected, Decimals(expected)), $"±{Number(tolerance, Decimals(tolerance))}", unit, digits, x => Math.Abs(x - expected) <= tolerance);

    public static Bar Between(double expected, double under, double over, string unit, int digits) =>
        new(Number(expected, Decimals(expected)), $"+{Number(over, Decimals(over))} / −{Number(under, Decimals(under))}", unit, digits, x => x >= expected - under && x <= expected + over);

    public static Bar AtMost(double limit, string unit, int digits, double floor = double.NegativeInfinity) =>
        new("–", $"≤ {Number(limit, Decimals(limit))}", unit, digits, x => x <= limit) { Floor = floor };

    public static Bar AtLeast(double limit, string unit, int digits) => new("–", $"≥ {Number(limit, Decimals(limit))}", unit, digits, x => x >= limit);

    public static Bar Exactly(double expected, string unit) => new(Number(expected, Decimals(expected)), "exact", unit, 0, x => x == expected);

    /// <summary>No bar: a figure worth knowing.</summary>
    public static Bar Told(string unit, int digits, double floor = double.NegativeInfinity) => new("–", "told only", unit, digits, _ => true) { Floor = floor };

    public string Shown(double measured)
    {
        var unit = Unit.Length == 0 ? "" : $" {Unit}";
        if (Math.Round(measured, Digits) == 0 && measured != 0 && Digits > 0 && Tolerance.StartsWith('≤'))
        {
            return $"below {Number(Math.Pow(10, -Digits), Digits)}{unit}";
        }

        return measured < Floor ? $"below {Number(Floor, Decimals(Floor))}{unit}" : $"{Number(measured, Digits)}{unit}";
    }

    private static string Number(double value, int digits)
    {
        if (double.IsNegativeInfinity(value))
        {
            return "−∞";
        }

        var rounded = Math.Round(value, digits) + 0;
        return rounded.ToString("F" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture).Replace('-', '−');
    }

    private static int Decimals(double value)
    {
        for (var digits = 0; digits < 6; digits++)
        {
            if (Math.Abs(value - Math.Round(value, digits)) < 1e-9)
            {
                return digits;
            }
        }

        return 6;
    }
}
