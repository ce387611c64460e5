using System.Globalization;
using DrumPrint.Chains;

namespace DrumPrint.Cli.Output;

/// <summary>Reads a place in the song as a person types it.</summary>
internal static class TimeText
{
    private static readonly (string Unit, double InSeconds)[] Units =
        [("ms", 0.001), ("seconds", 1), ("secs", 1), ("sec", 1), ("s", 1), ("minutes", 60), ("mins", 60), ("min", 60), ("m", 60)];

    /// <summary>Seconds of <c>12.5</c>, <c>1:23.4</c> or <c>bar23</c>; null for null.</summary>
    /// <exception cref="UsageException">The text is none of these, or a bar the tempo map does not hold.</exception>
    public static double? Parse(string option, string? text, TempoMap? tempo)
    {
        if (text is null)
        {
            return null;
        }

        var word = text.Trim();
        if (IsBar(word))
        {
            return SecondsAtBar(option, text, word, tempo);
        }

        if (Seconds(word) is { } seconds)
        {
            return seconds;
        }

        var meant = Meant(word) is { } value ? $" Did you mean {option} {value}?" : "";
        throw new UsageException($"{option} {text}: not a time. Write seconds (12.5), minutes and seconds (1:23.4) or a bar (bar23), without a unit.{meant}");
    }

    /// <summary>The bar of <c>bar23</c>; null for anything else.</summary>
    public static double? Bar(string? text) => text?.Trim() is { } word && IsBar(word) ? BarNumber(word) : null;

    private static bool IsBar(string word) => word.StartsWith("bar", StringComparison.OrdinalIgnoreCase);

    private static double? BarNumber(string word) =>
        double.TryParse(word[3..].Trim(' ', ':'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var bar) ? bar : null;

    private static double? Seconds(string word)
    {
        var parts = word.Split(':');
        if (parts.Length > 2
            || !double.TryParse(parts[^1], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var seconds)
            || !double.IsFinite(seconds))
        {
            return null;
        }

        return parts.Length == 1 ? seconds
            : seconds < 60 && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var minutes) ? (minutes * 60.0) + seconds
            : null;
    }

    // What a time with a unit glued to it, or with a comma, would be.
    private static string? Meant(string word)
    {
        var plain = word.Replace(',', '.').ToLowerInvariant();
        foreach (var (unit, inSeconds) in Units)
        {
            if (plain.EndsWith(unit, StringComparison.Ordinal)
                && plain[..^unit.Length].TrimEnd() is var number
                && Seconds(number) is { } value)
            {
                return number.Contains(':', StringComparison.Ordinal) ? number : (value * inSeconds).ToString("0.###", CultureInfo.InvariantCulture);
            }
        }

        return Seconds(plain) is null ? null : plain;
    }

    private static double SecondsAtBar(string option, string text, string word, TempoMap? tempo)
    {
        if (BarNumber(word) is not { } bar)
        {
            throw new UsageException($"{option} {text}: not a bar. Write it like bar23.");
        }

        if (tempo is null)
        {
            throw new UsageException($"{option} {text}: the chain names no tempo map, so bars have no place in time. Write seconds instead.");
        }

        // The bar after the last is its end.
        return bar >= tempo.FirstBar && bar <= tempo.LastBar + 1
            ? tempo.SecondsAtBar(bar)
            : throw new UsageException($"{option} {text}: the tempo map holds bars {tempo.FirstBar} to {tempo.LastBar}.");
    }
}
