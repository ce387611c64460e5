using System.Text.Json;
using DrumPrint.Language;

namespace DrumPrint.Chains.Json;

/// <summary>
/// Follows the reading of a JSON text so that, where it breaks, the break can be told in plain words.
/// </summary>
/// <remarks>The reader of the runtime finds that a text is broken; what it says about it is for programmers. So the bytes
/// after the last good token are looked at once more here.</remarks>
internal sealed class SyntaxAdvice(SourceText source)
{
    public const int Deepest = 64;

    // Such as seconds.
    private const int LongestUnit = 8;

    private readonly BracketWatch _brackets = new(source);
    private readonly TextScan _scan = new(source);
    private JsonTokenType _last = JsonTokenType.None;
    private int _start;
    private int _end;
    private string _place = "";
    private string _lastValue = "";


    /// <summary>A token was read.</summary>
    /// <param name="token">What it is.</param>
    /// <param name="start">Where it begins.</param>
    /// <param name="end">The offset it ends before.</param>
    public void Took(JsonTokenType token, int start, int end)
    {
        (_last, _start, _end) = (token, start, end);
        if (token is JsonTokenType.String or JsonTokenType.Number or JsonTokenType.True or JsonTokenType.False or JsonTokenType.Null)
        {
            _lastValue = _place;
            _place = _brackets.Place;
        }
    }

    public void Opened(int offset, bool isObject, string place)
    {
        _brackets.Open(offset, isObject, place);
        _place = place;
    }

    /// <summary>A bracket was closed.</summary>
    /// <param name="offset">Where the closing one stands.</param>
    public void Closed(int offset)
    {
        _brackets.Close(offset);
        _place = _brackets.Place;
    }

    /// <summary>A key was read; what breaks next breaks there.</summary>
    /// <param name="place">What the key names.</param>
    /// <param name="offset">Where it stands.</param>
    public void Named(string place, int offset)
    {
        _brackets.Inside(offset);
        _place = place;
    }

    /// <summary>Why the text breaks after the last good token.</summary>
    public JsonSyntaxException Explain()
    {
        try
        {
            return _last switch
            {
                JsonTokenType.None => Start(),
                JsonTokenType.String when _brackets.Count == 0 && source[_scan.Skip(_end, _place)] == ':' => StrayColon(_scan.Skip(_end, _place)),
                _ when _brackets.Count == 0 => Broken(_scan.Skip(_end, _place), "nothing may stand after the closing bracket of the file."),
                JsonTokenType.PropertyName => Value(_scan.Skip(_end, _place)),
                JsonTokenType.StartObject or JsonTokenType.StartArray => Inner(_scan.Skip(_end, _place)),
                _ => AfterValue(_scan.Skip(_end, _place)),
            };
        }
        catch (JsonSyntaxException comment)
        {
            return comment;
        }
    }

    private JsonSyntaxException Start()
    {
        var at = _scan.Skip(0, _place);
        return at == source.Length ? Broken(0, "the file is empty.") : Value(at);
    }

    private JsonSyntaxException AfterValue(int at)
    {
        if (at == source.Length)
        {
            return Unclosed();
        }

        return source[at] switch
        {
            (byte)',' => Inner(_scan.Skip(at + 1, _place)),
            (byte)'}' or (byte)']' => Mismatch(at),
            (byte)':' => StrayColon(at),
            _ when _brackets.IsOutdented(at, isClosing: false) => Broken(_end, $"a {_brackets.Innermost.Closing} and a comma are missing here: {_brackets.Innermost.Words(source)} is still open."),
            _ => MissingQuote(_start, _end) ?? Unit(at) ?? Broken(_end, "a comma is missing here."),
        };
    }

    // A letter right behind a closing quote: the quote was meant to open the next text. The quote that was to close this one is
    // missing.
    private JsonSyntaxException? MissingQuote(int start, int end)
    {
        if (source[start] != '"' || end >= source.Length || !char.IsAsciiLetter((char)source[end]))
        {
            return null;
        }

        var text = source.Slice(start + 1, end - 1);
        var cut = text.IndexOfAny([',', ':', '}', ']']);
        return cut > 0 ? Broken(start, $"a closing quote seems to be missing here: \"{Show.Name(text[..cut].TrimEnd())}\".") : null;
    }

    // A number and, with a space between, its unit.
    private JsonSyntaxException? Unit(int at)
    {
        var word = source.Slice(at, _scan.WordEnd(at));
        return _last == JsonTokenType.Number && word.Length <= LongestUnit && word.All(c => char.IsLetter(c) || c is '%' or '°' or '\'')
            ? new JsonSyntaxException(source.At(at), _lastValue, $"'{word}' does not belong here: a number stands without its unit, {source.Slice(_start, _end)} alone.")
            : null;
    }

    private JsonSyntaxException StrayColon(int at)
    {
        return _last switch
        {
            JsonTokenType.String when _brackets.Count > 0 && _brackets.IsOutdented(_start, isClosing: false) => new JsonSyntaxException(
                source.At(_start), _brackets.Innermost.Place, _brackets.Innermost.MissingBefore(source)),
            JsonTokenType.String => new JsonSyntaxException(
                source.At(_start), _lastValue, $"a {{ is missing before this: {source.Slice(_start, _end)} has a colon behind it, so it is a key, and keys stand inside {{ }}."),
            JsonTokenType.Number when Ratio(_start, _end) is { } advice => new JsonSyntaxException(source.At(_start), _lastValue, advice),
            _ => Broken(at, "a colon stands between a key and its value only."),
        };
    }

    // What to write for 10:1; null for anything else.
    private string? Ratio(int start, int end)
    {
        var colon = _scan.Skip(end, _place);
        var one = _scan.Skip(colon + 1, _place);
        return char.IsAsciiDigit((char)source[start]) && source[colon] == ':' && source.Slice(one, _scan.WordEnd(one)) == "1"
            ? $"a ratio is written as one number: {source.Slice(start, end)}."
            : null;
    }

    private JsonSyntaxException Inner(int at)
    {
        if (at == source.Length)
        {
            return Unclosed();
        }

        return source[at] switch
        {
            (byte)',' => Broken(at, "there is one comma too many here."),
            (byte)'}' or (byte)']' => Mismatch(at),
            _ when !_brackets.IsInObject => Value(at),
            (byte)'"' => BrokenText(at) ?? Colon(at, _scan.TextEnd(at)),
            >= (byte)'0' and <= (byte)'9' when _last == JsonTokenType.Number => new JsonSyntaxException(source.At(at), _lastValue, $"a decimal is written with a point, not a comma: {WithPoint(at)}."),
            _ => BrokenQuote(at) ?? Broken(at, "a key in double quotes must stand here."),
        };
    }

    // The number before the comma and what stands behind it.
    private string WithPoint(int at) => $"{source.Slice(_start, _end)}.{source.Slice(at, _scan.WordEnd(at))}";

    private JsonSyntaxException Colon(int start, int at)
    {
        var next = _scan.Skip(at, _place);
        if (source[next] != ':')
        {
            return MissingQuote(start, at) ?? Broken(next, "a colon is missing between the key and its value.");
        }

        // The reader of the runtime takes comments anywhere else.
        return Broken(_scan.SkipSpace(at), "a comment cannot stand between a key and its colon. Move it behind the colon.");
    }

    private JsonSyntaxException Value(int at)
    {
        if (at == source.Length)
        {
            return _brackets.Count == 0 ? Broken(at, "the file is empty.") : Unclosed();
        }

        switch (source[at])
        {
            case (byte)'"':
                return BrokenText(at) ?? Broken(at, "this text cannot be read.");
            case (byte)',' or (byte)'}' or (byte)']':
                return Broken(at, "a value is missing before this.");
            case (byte)'{' or (byte)'[':
                return Broken(at, $"brackets are nested more than {Deepest} deep.");
        }

        var word = source.Slice(at, _scan.WordEnd(at));
        return BrokenQuote(at) ?? Broken(at, Ratio(at, _scan.WordEnd(at)) ?? NumberAdvice(word) ?? WordAdvice(word));
    }

    private static string? NumberAdvice(string word) => word switch
    {
        ['\u2212' or '\u2013' or '\u2014', ..] => "this dash is not a minus sign. Write a plain hyphen: -.",
        ['+', ..] => "a number above zero has no sign. Leave the + out.",
        ['.', ..] or ['-', '.', ..] => $"a digit must stand before the point: {word.Replace(".", "0.", StringComparison.Ordinal)}.",
        ['0', >= '0' and <= '9', ..] or ['-', '0', >= '0' and <= '9', ..] => "a number does not start with a spare 0. Leave it out.",
        [>= '0' and <= '9', ..] or ['-', ..] => $"'{Show.Name(word)}' is not a number. Write digits and a point only, without a unit: 2.5.",
        _ => null,
    };

    private static string WordAdvice(string word) => word.ToUpperInvariant() switch
    {
        "TRUE" or "FALSE" or "NULL" => $"'{word}' is written in small letters.",
        "YES" or "ON" => $"'{word}' is not known here. Write true.",
        "NO" or "OFF" => $"'{word}' is not known here. Write false.",
        _ => $"'{Show.Name(word)}' must stand in double quotes.",
    };

    private JsonSyntaxException? BrokenQuote(int at) => source.RuneAt(at).Value switch
    {
        '\'' or '`' => Broken(at, "use double quotes (\"), not single ones."),
        '\u201C' or '\u201D' or '\u201E' or '\u00AB' or '\u00BB' or '\u2018' or '\u2019' => Broken(at, "use straight double quotes (\"), not curly ones."),
        _ => null,
    };

    // Null when the text is sound.
    private JsonSyntaxException? BrokenText(int start)
    {
        for (var at = start + 1; at < source.Length; at++)
        {
            switch (source[at])
            {
                case (byte)'"':
                    return null;
                case (byte)'\n' or (byte)'\r':
                    return Broken(start, "the text that starts here has no closing quote on its line.");
                case < 0x20:
                    return Broken(at, source[at] == '\t' ? "a tab inside quotes. Use spaces." : "a control character inside quotes. Take it out.");
                case (byte)'\\' when source[at + 1] is (byte)'"' or (byte)'\\' or (byte)'/' or (byte)'b' or (byte)'f' or (byte)'n' or (byte)'r' or (byte)'t':
                    at++;
                    break;
                case (byte)'\\' when source[at + 1] != 'u' || !_scan.HasFourHexDigits(at + 2):
                    return Broken(at, "a backslash inside quotes needs a second one. Between folders write / instead.");
            }
        }

        return Broken(start, "the text that starts here has no closing quote.");
    }

    private JsonSyntaxException Mismatch(int at)
    {
        var bracket = _brackets.Innermost;
        _brackets.Look(at, isClosing: true);
        return _brackets.Forgotten() ?? Broken(at, $"this {(char)source[at]} should be a {bracket.Closing}: it closes {bracket.Words(source)}.");
    }

    private JsonSyntaxException Unclosed()
    {
        // The end of a file tells nothing of where a bracket should have been closed; where it opens is what can be looked at.
        return _brackets.NeverClosed() ?? Opened(_brackets.Innermost);
    }

    private JsonSyntaxException Opened(OpenBracket bracket) =>
        new(source.At(bracket.Offset), bracket.Place, $"the {bracket.Opening} that opens here is never closed.");

    private JsonSyntaxException Broken(int offset, string message) => new(source.At(offset), _place, message);
}
