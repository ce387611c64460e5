using System.Globalization;
using DrumPrint.Language;

namespace DrumPrint.Chains.Format;

/// <summary>How delivered sound files are named: words in braces stand for what a print is, all else for itself.</summary>
/// <remarks>A number and a version in every name see to it that no two files of a song, of one version or of two, share one.</remarks>
internal static class NamePattern
{
    /// <summary>Longest pattern: filled, it stays within what every system takes.</summary>
    public const int Longest = 80;

    /// <summary>The rule for a schema.</summary>
    public const string Rule = "^([A-Za-z0-9_-]|\\{(number|name|code|version)\\})+$";

    /// <summary>The names of the prints themselves.</summary>
    public const string OfPrints = Number + "_" + Name + "_" + Code + "_v" + Version;

    private const string Number = "{number}";
    private const string Name = "{name}";
    private const string Code = "{code}";
    private const string Version = "{version}";

    private static readonly string[] Words = [Number, Name, Code, Version];

    /// <summary>What is wrong with a pattern, in a sentence that goes on from its key; null when nothing is.</summary>
    public static string? Problem(string pattern)
    {
        var rest = pattern;
        foreach (var word in Words)
        {
            if (pattern.Split(word).Length > 2)
            {
                return $"has {word} twice. Once is enough.";
            }

            rest = rest.Replace(word, "", StringComparison.Ordinal);
        }

        if (rest.IndexOfAny(['{', '}']) is var brace and >= 0)
        {
            var end = rest.IndexOf('}', brace);
            var said = rest[brace] == '{' && end > brace ? rest[(brace + 1)..end] : null;
            var meant = said is null ? null : Nearest.Word(said, [.. Words.Select(w => w.Trim('{', '}'))]);
            return $"has {(said is null ? "a brace without its other one" : $"{{{Show.Name(said)}}}, which stands for nothing")}. It takes {string.Join(", ", Words)}.{(meant is null ? "" : $" Did you mean {{{meant}}}?")}";
        }

        if (rest.FirstOrDefault(c => !char.IsAsciiLetterOrDigit(c) && c is not ('-' or '_')) is var odd and not '\0')
        {
            return $"has '{Show.Name(odd.ToString())}', which not every system takes in a file name: letters A to Z and a to z, digits, - and _ only. The ending .wav comes by itself.";
        }

        return pattern.Length > Longest ? $"is longer than {Longest.ToString(CultureInfo.InvariantCulture)} characters."
            : !pattern.Contains(Number, StringComparison.Ordinal) || !pattern.Contains(Version, StringComparison.Ordinal) ? $"lacks {(pattern.Contains(Number, StringComparison.Ordinal) ? Version : Number)}: without it two files could have one name. The prints themselves are named {OfPrints}."
            : null;
    }

    /// <summary>A name, without its ending.</summary>
    public static string Fill(string pattern, Song song, int number, string name) => pattern
        .Replace(Number, number.ToString("00", CultureInfo.InvariantCulture), StringComparison.Ordinal)
        .Replace(Code, song.Code, StringComparison.Ordinal)
        .Replace(Version, song.Version.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal)
        .Replace(Name, name, StringComparison.Ordinal);
}
