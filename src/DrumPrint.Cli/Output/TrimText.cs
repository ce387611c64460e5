using System.CommandLine.Parsing;
using System.Globalization;

namespace DrumPrint.Cli.Output;

/// <summary>Reads a level in decibels as a person types it.</summary>
internal static class TrimText
{
    private const string Unit = "db";
    private const double MostDb = 3;

    /// <summary>Decibels of <c>0.5</c> or <c>-1</c>; anything else becomes an error of the command line.</summary>
    public static double Parse(ArgumentResult result)
    {
        var text = result.Tokens.Count > 0 ? result.Tokens[0].Value : "";
        if (Number(text) is { } level)
        {
            return level;
        }

        var plain = text.Trim().Replace(',', '.').Replace('−', '-');
        var number = plain.EndsWith(Unit, StringComparison.OrdinalIgnoreCase) ? plain[..^Unit.Length].TrimEnd() : plain;
        var meant = Number(number) is { } value && Math.Abs(value) <= MostDb
            ? FormattableString.Invariant($" Did you mean --trim {value:0.###}?")
            : "";
        result.AddError($"--trim {text}: not a level. Write decibels from -3 to 3 without a unit, such as 0.5.{meant}");
        return 0;
    }

    private static double? Number(string text) =>
        double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value)
            ? value
            : null;
}
