using System.Text;

namespace DrumPrint.Fuzz.Mutating;

/// <summary>Changes of JSON by its words: texts, numbers, brackets, commas.</summary>
internal sealed class WordEdits(FuzzRandom random, IReadOnlyList<byte[]> words)
{
    private const int MostCopies = 200;

    private static readonly byte[][] Values = [.. new[]
    {
        "0", "-0", "1", "-1", "2", "3", "16", "99", "100", "999", "9999", "10000", "48000", "2147483647", "2147483648", "-2147483649", "9007199254740993", "9223372036854775807", "1e15", "1e16", "1e-320",
        "1e308", "1e309", "-1e308", "0.1", "1.5", "-1.5", "1e1", "1E+2", "01", "1.", ".5", "+1", "NaN", "true", "false", "null", "{}", "[]", "[[]]", "{\"a\":{}}", "\"\"", "\" \"", "\"a\"", "\".\"", "\"..\"",
        "\"../a\"", "\"/etc/passwd\"", "\"C:\\\\a\"", "\"a/b\"", "\"CON\"", "\"a:b\"", "\"\\u0000\"", "\"\\ud800\"", "\"\\udc00\\ud800\"", "\"\\u202e\"", "\"\\u001b[31m\"", "\"e\\u0301\"", "\"\u00e9\"", "\"\U0001f941\"",
        "// a\n", "/* a */", "/*", "'a'", "\"a", "a", ",", ":", "[", "]", "{", "}", "\"4/4\"", "\"7/8\"", "\"0/4\"", "\"4/0\"", "\"999/32\"",
    }.Select(Encoding.UTF8.GetBytes)];

    public byte[] Step(byte[] input, byte[] other)
    {
        var found = Words(input);
        if (found.Count == 0)
        {
            return [.. input, .. Word()];
        }

        var at = random.Of(found);
        return random.Below(14) switch
        {
            0 or 1 or 2 => Replaced(input, at, Word()),
            3 => Replaced(input, at, []),
            4 => Replaced(input, at, Piece(other)),
            5 => Replaced(input, at, [.. input.AsSpan(at), .. ","u8, .. input.AsSpan(at)]),
            6 => Replaced(input, at, input[random.Of(found)]),
            7 => Repeat(input, Group(input, found)),
            8 => Replaced(input, Group(input, found), random.Below(2) == 0 ? [] : Piece(other)),
            9 => Replaced(input, at, Long(input[at])),
            _ => Replaced(input, at, Like(input[at])),
        };
    }

    private byte[] Word() => words.Count > 0 && random.Below(2) == 0 ? random.Of(words) : random.Of(Values);

    // A word of the same kind, so that the rest still means something.
    private byte[] Like(byte[] word)
    {
        for (var tries = 0; tries < 8; tries++)
        {
            var other = Word();
            if (Kind(other) == Kind(word))
            {
                return other;
            }
        }

        return Word();
    }

    private static int Kind(byte[] word) => word.Length == 0 ? 0 : word[0] == '"' && word[^1] == '"' ? 1 : char.IsAsciiDigit((char)word[0]) || word[0] == '-' ? 2 : 3;

    private byte[] Piece(byte[] other)
    {
        var found = Words(other);
        return found.Count == 0 ? Word() : other[Group(other, found)];
    }

    // A text or number that is longer than it was meant to be.
    private byte[] Long(byte[] word) => word.Length < 3 ? Word() : [.. word.AsSpan(0, 2), .. Enumerable.Repeat(word[1], 1 + random.Below(1 << random.Below(13))), .. word.AsSpan(2)];

    private byte[] Repeat(byte[] input, Range group)
    {
        var copies = random.Below(6) == 0 ? 1 + random.Below(MostCopies) : 1;
        var one = input[group];
        var all = new List<byte>(one);
        for (var n = 0; n < copies && all.Count < 1 << 16; n++)
        {
            all.Add((byte)',');
            all.AddRange(one);
        }

        return Replaced(input, group, [.. all]);
    }

    // From a word to the bracket that closes it; the word alone where it opens nothing.
    private Range Group(byte[] input, List<Range> found)
    {
        var index = random.Below(found.Count);
        var start = found[index].Start.Value;
        var depth = 0;
        for (; index < found.Count; index++)
        {
            depth += input[found[index].Start.Value] switch
            {
                (byte)'{' or (byte)'[' => 1,
                (byte)'}' or (byte)']' => -1,
                _ => 0,
            };
            if (depth <= 0)
            {
                // A key goes with its value.
                if (index + 2 < found.Count && input[found[index + 1].Start.Value] == ':' && random.Below(2) == 0)
                {
                    index++;
                    continue;
                }

                break;
            }
        }

        return start..found[Math.Min(index, found.Count - 1)].End.Value;
    }

    private static byte[] Replaced(byte[] input, Range at, byte[] with) => [.. input.AsSpan(0, at.Start.Value), .. with, .. input.AsSpan(at.End.Value)];

    /// <summary>Where the words of a text are.</summary>
    public static List<Range> Words(byte[] input)
    {
        var found = new List<Range>();
        for (var at = 0; at < input.Length;)
        {
            var end = End(input, at);
            if (input[at] is not ((byte)' ' or (byte)'\n' or (byte)'\r' or (byte)'\t'))
            {
                found.Add(at..end);
            }

            at = end;
        }

        return found;
    }

    private static int End(byte[] input, int at)
    {
        if (input[at] == '"')
        {
            for (var end = at + 1; end < input.Length; end++)
            {
                if (input[end] == '"')
                {
                    return end + 1;
                }

                end += input[end] == '\\' ? 1 : 0;
            }

            return input.Length;
        }

        var last = at;
        while (last < input.Length && (char.IsAsciiLetterOrDigit((char)input[last]) || input[last] is (byte)'.' or (byte)'-' or (byte)'+' or (byte)'_'))
        {
            last++;
        }

        return Math.Max(last, at + 1);
    }
}
