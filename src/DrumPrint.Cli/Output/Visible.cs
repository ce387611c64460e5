using System.Globalization;
using System.Text;

namespace DrumPrint.Cli.Output;

/// <summary>Makes characters visible that steer a terminal or turn the reading order. In a name they could forge a line, hide
/// one, or type into the shell. Each becomes its number, such as <c>\u001B</c>.</summary>
internal static class Visible
{
    // Between letters of some scripts, and inside many emoji, these two belong to the word.
    private const int Joiner = 0x200D;
    private const int NonJoiner = 0x200C;

    /// <summary>A text that stays on one line.</summary>
    public static string Line(string text) => Of(text, keepsLines: false);

    /// <summary>A text of several lines.</summary>
    public static string Lines(string text) => Of(text, keepsLines: true);

    /// <summary>Whether a character is never written as it is; line breaks are such characters.</summary>
    public static bool IsHidden(Rune rune) => Rune.GetUnicodeCategory(rune) switch
    {
        UnicodeCategory.Control or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator or UnicodeCategory.Surrogate => true,
        UnicodeCategory.Format => rune.Value is not (Joiner or NonJoiner),
        _ => false,
    };

    private static string Of(string text, bool keepsLines)
    {
        if (text.All(c => c is >= ' ' and <= '~'))
        {
            return text;
        }

        var visible = new StringBuilder(text.Length);
        for (var at = 0; at < text.Length;)
        {
            var isWhole = Rune.TryGetRuneAt(text, at, out var rune);
            var length = isWhole ? rune.Utf16SequenceLength : 1;
            if (keepsLines && (text[at] == '\n' || text.AsSpan(at).StartsWith("\r\n")))
            {
                visible.Append(text[at]);
            }
            else if (!isWhole || IsHidden(rune))
            {
                visible.Append(CultureInfo.InvariantCulture, $"\\u{(isWhole ? rune.Value : text[at]):X4}");
            }
            else
            {
                visible.Append(text.AsSpan(at, length));
            }

            at += length;
        }

        return visible.ToString();
    }
}
