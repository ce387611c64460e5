using System.Globalization;
using System.Text;
using System.Text.Json;

namespace DrumPrint.Chains.Writing;

/// <summary>Changes single values in the text of a chain, and leaves every other byte as it was: comments, order, spaces, line ends.</summary>
public static class ChainEdit
{
    private static readonly JsonReaderOptions Options = new() { AllowTrailingCommas = true, CommentHandling = JsonCommentHandling.Skip };

    /// <summary>Sets a value of a named entry. Where the entry is short for one of its keys, it is written out.</summary>
    /// <param name="utf8">The text; it must be a chain that can be read.</param>
    /// <param name="place">The way to the entry, key by key: <c>tracks</c>, <c>kick in</c>; an item of a list by its number from 0.</param>
    /// <param name="shorthand">The key that a text alone stands for: <c>file</c>.</param>
    /// <param name="key">The key to set.</param>
    /// <param name="json">Its value, as JSON.</param>
    /// <returns>The new text; the same array where nothing changes.</returns>
    /// <exception cref="ArgumentException">There is no such entry.</exception>
    public static byte[] Set(byte[] utf8, IReadOnlyList<string> place, string shorthand, string key, string json)
    {
        ArgumentNullException.ThrowIfNull(utf8);
        ArgumentNullException.ThrowIfNull(place);
        var entry = Find(utf8, place) ?? throw new ArgumentException($"There is no {string.Join('.', place)}.", nameof(place));
        if (!entry.IsObject && key == shorthand)
        {
            return Replaced(utf8, entry.Start, entry.End, json);
        }

        if (!entry.IsObject)
        {
            var value = Encoding.UTF8.GetString(utf8, entry.Start, entry.End - entry.Start);
            return Replaced(utf8, entry.Start, entry.End, $"{{ \"{shorthand}\": {value}, \"{key}\": {json} }}");
        }

        if (entry.Members.FirstOrDefault(m => m.Key == key) is { } found)
        {
            return utf8.AsSpan(found.Start, found.End - found.Start).SequenceEqual(Encoding.UTF8.GetBytes(json)) ? utf8 : Replaced(utf8, found.Start, found.End, json);
        }

        if (entry.Members.Count == 0)
        {
            return Replaced(utf8, entry.Start + 1, entry.Start + 1, $" \"{key}\": {json} ");
        }

        var last = entry.Members[^1];
        var lineStart = LineStart(utf8, last.KeyStart);
        var isOwnLine = IsBlank(utf8, lineStart, last.KeyStart);
        // A comment behind the last value stays with it: the new key goes before.
        return isOwnLine
            ? Replaced(utf8, last.KeyStart, last.KeyStart, $"\"{key}\": {json},{LineEnd(utf8, lineStart)}{Encoding.UTF8.GetString(utf8, lineStart, last.KeyStart - lineStart)}")
            : Replaced(utf8, last.End, last.End, $", \"{key}\": {json}");
    }

    /// <summary>Takes a key out of an entry, with the comma that follows or else the one before it. What is said beside it stays.</summary>
    /// <param name="utf8">The text.</param>
    /// <param name="place">The way to the entry.</param>
    /// <param name="key">The key.</param>
    /// <returns>The new text; the same array where the entry does not give the key.</returns>
    public static byte[] Remove(byte[] utf8, IReadOnlyList<string> place, string key)
    {
        ArgumentNullException.ThrowIfNull(utf8);
        ArgumentNullException.ThrowIfNull(place);
        if (Find(utf8, place) is not { } entry || entry.Members.FirstOrDefault(m => m.Key == key) is not { } found)
        {
            return utf8;
        }

        var index = entry.Members.ToList().IndexOf(found);
        var end = found.End;
        while (end < utf8.Length && utf8[end] is (byte)' ' or (byte)'\t')
        {
            end++;
        }

        var hasComma = end < utf8.Length && utf8[end] == (byte)',';
        end = hasComma ? end + 1 : found.End;
        var before = index > 0 ? entry.Members[index - 1].End : -1;
        var start = !hasComma && before >= 0 && utf8.AsSpan(before, found.KeyStart - before).IndexOfAnyExcept(" ,\t"u8) < 0 ? before : found.KeyStart;
        var lineStart = LineStart(utf8, start);
        var lineEnd = end;
        while (lineEnd < utf8.Length && utf8[lineEnd] is (byte)' ' or (byte)'\t' or (byte)'\r')
        {
            lineEnd++;
        }

        var isLineOfItsOwn = IsBlank(utf8, lineStart, start) && lineEnd < utf8.Length && utf8[lineEnd] == (byte)'\n';
        if (isLineOfItsOwn)
        {
            return Replaced(utf8, lineStart, lineEnd + 1, "");
        }

        while (start == found.KeyStart && hasComma && end < utf8.Length && utf8[end] == (byte)' ')
        {
            end++;
        }

        return Replaced(utf8, start, end, "");
    }

    /// <summary>The text of a value of an entry; null where the entry does not give it.</summary>
    /// <param name="utf8">The text.</param>
    /// <param name="place">The way to the entry.</param>
    /// <param name="key">The key.</param>
    public static string? Get(byte[] utf8, IReadOnlyList<string> place, string key)
    {
        ArgumentNullException.ThrowIfNull(utf8);
        ArgumentNullException.ThrowIfNull(place);
        return Find(utf8, place)?.Members.FirstOrDefault(m => m.Key == key) is { } found ? Encoding.UTF8.GetString(utf8, found.Start, found.End - found.Start) : null;
    }

    private static byte[] Replaced(byte[] utf8, int start, int end, string text) => [.. utf8.AsSpan(0, start), .. Encoding.UTF8.GetBytes(text), .. utf8.AsSpan(end)];

    private static int LineStart(byte[] utf8, int offset) => utf8.AsSpan(0, offset).LastIndexOf((byte)'\n') + 1;

    private static string LineEnd(byte[] utf8, int lineStart) => lineStart >= 2 && utf8[lineStart - 2] == '\r' ? "\r\n" : "\n";

    private static bool IsBlank(byte[] utf8, int start, int end) => start > 0 && utf8.AsSpan(start, end - start).IndexOfAnyExcept((byte)' ', (byte)'\t') < 0;

    private static Listed? Find(byte[] utf8, IReadOnlyList<string> place)
    {
        var mark = utf8.AsSpan().StartsWith("\uFEFF"u8) ? 3 : 0;
        var reader = new Utf8JsonReader(utf8.AsSpan(mark), Options);
        reader.Read();
        foreach (var step in place)
        {
            if (!Enter(ref reader, step))
            {
                return null;
            }
        }

        var start = (int)reader.TokenStartIndex + mark;
        if (reader.TokenType != JsonTokenType.StartObject)
        {
            reader.Skip();
            return new Listed(start, (int)reader.BytesConsumed + mark, false, []);
        }

        var members = new List<KeyText>();
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var (key, keyStart) = (reader.GetString()!, (int)reader.TokenStartIndex + mark);
            reader.Read();
            var valueStart = (int)reader.TokenStartIndex + mark;
            reader.Skip();
            members.Add(new KeyText(key, keyStart, valueStart, (int)reader.BytesConsumed + mark));
        }

        return new Listed(start, (int)reader.BytesConsumed + mark, true, members);
    }

    // Goes to the value of a key of the object that begins here, or to an item of the list by its number from 0.
    private static bool Enter(ref Utf8JsonReader reader, string step)
    {
        if (reader.TokenType == JsonTokenType.StartArray && int.TryParse(step, NumberStyles.None, CultureInfo.InvariantCulture, out var index))
        {
            while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
            {
                if (index-- == 0)
                {
                    return true;
                }

                reader.Skip();
            }

            return false;
        }

        if (reader.TokenType != JsonTokenType.StartObject)
        {
            return false;
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var isIt = reader.ValueTextEquals(step);
            reader.Read();
            if (isIt)
            {
                return true;
            }

            reader.Skip();
        }

        return false;
    }

    private sealed record KeyText(string Key, int KeyStart, int Start, int End);

    private sealed record Listed(int Start, int End, bool IsObject, IReadOnlyList<KeyText> Members);
}
