using System.Globalization;

namespace DrumPrint.Language;

/// <summary>Numbers as people read them.</summary>
public static class Words
{
    /// <summary>A value with a minus sign that is one; <c>−∞</c> and <c>∞</c> for the infinite.</summary>
    public static string Number(double value, int digits = 1)
    {
        if (double.IsNaN(value))
        {
            return "none";
        }

        if (double.IsInfinity(value))
        {
            return value > 0 ? "∞" : "−∞";
        }

        var text = value.ToString("F" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        var isZero = text.All(c => c is '-' or '0' or '.');
        return isZero ? text.TrimStart('-') : text.Replace('-', '−');
    }

    /// <summary>The side signal against the middle: a word where there is no side or no middle.</summary>
    public static string Width(double db) => double.IsNegativeInfinity(db) ? "mono" : double.IsPositiveInfinity(db) ? "side only" : $"{Number(db)} dB";

    /// <summary>A value with its sign: <c>+1.2</c>.</summary>
    public static string Signed(double value, int digits = 1)
    {
        var text = Number(value, digits);
        return value > 0 && text.Any(c => c is >= '1' and <= '9' or '∞') ? "+" + text : text;
    }

    /// <summary>A frequency: <c>63 Hz</c>, <c>3.15 kHz</c>.</summary>
    public static string Frequency(double hz) =>
        hz >= 1000 ? FormattableString.Invariant($"{hz / 1000:0.##} kHz") : FormattableString.Invariant($"{hz:0.#} Hz");

    /// <summary>A count with its noun: <c>1 hit</c>, <c>57 hits</c>.</summary>
    public static string Count(int count, string noun) => Count(count, noun, noun + "s");

    /// <summary>A count with its noun: <c>1 bus</c>, <c>3 buses</c>.</summary>
    public static string Count(int count, string one, string many) => FormattableString.Invariant($"{count} {(count == 1 ? one : many)}");
}
