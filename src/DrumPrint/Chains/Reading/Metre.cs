using System.Globalization;

namespace DrumPrint.Chains.Reading;

/// <summary>Reads a metre such as 4/4.</summary>
internal static class Metre
{
    public static bool IsValid(string text) => Parse(text) is not null;

    /// <summary>Beats and note value; null when the text is no metre.</summary>
    public static (int Beats, int Unit)? Parse(string text)
    {
        var parts = text.Split('/');
        return parts.Length == 2
            && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var beats)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var unit)
            && beats is >= 1 and <= 32
            && unit is 1 or 2 or 4 or 8 or 16 or 32
            ? (beats, unit)
            : null;
    }
}
