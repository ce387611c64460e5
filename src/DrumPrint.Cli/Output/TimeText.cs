using System.Globalization;
using DrumPrint.Chains;

namespace DrumPrint.Cli.Output;

/// <summary>Reads a place in the song as a person types it.</summary>
internal static class TimeText
{
    /// <summary>Seconds of <c>12.5</c>, <c>1:23.4</c> or <c>bar23</c>; null for null.</summary>
    /// <exception cref="UsageException">The text is none of these, or a bar the tempo map does not hold.</exception>
    public static double? Parse(string option, string? text, TempoMap? tempo)
    {
        if (text is null)
        {
            return null;
        }

        var word = text.Trim();
        if (word.StartsWith("bar", StringComparison.OrdinalIgnoreCase))
        {
            return Bar(option, text, word[3..], tempo);
        }

        var parts = word.Split(':');
        if (parts.Length <= 2
            && double.TryParse(parts[^1], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var seconds)
            && double.IsFinite(seconds))
        {
            if (parts.Length == 1)
            {
                return seconds;
            }

            if (seconds < 60 && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var minutes))
            {
                return (minutes * 60.0) + seconds;
            }
        }

        throw new UsageException($"{option} {text}: not a time. Write seconds (12.5), minutes and seconds (1:23.4) or a bar (bar23).");
    }

    private static double Bar(string option, string text, string number, TempoMap? tempo)
    {
        if (!double.TryParse(number.Trim(' ', ':'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var bar))
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
