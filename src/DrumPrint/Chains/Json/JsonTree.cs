using System.Text.Json;
using System.Text.Unicode;

namespace DrumPrint.Chains.Json;

/// <summary>Reads JSON with comments and trailing commas into nodes that know where they stand.</summary>
internal sealed class JsonTree
{
    private static readonly JsonReaderOptions Options = new()
    {
        AllowTrailingCommas = true,
        CommentHandling = JsonCommentHandling.Skip,
        MaxDepth = SyntaxAdvice.Deepest,
    };

    private readonly SourceText _source;
    private readonly SyntaxAdvice _advice;

    private JsonTree(SourceText source)
    {
        _source = source;
        _advice = new SyntaxAdvice(source);
    }

    /// <summary>Reads one value, the whole file.</summary>
    /// <param name="utf8">The bytes.</param>
    /// <param name="file">The file that positions name; null for the one that is read in the first place.</param>
    /// <exception cref="JsonSyntaxException">It is not JSON, or not UTF-8.</exception>
    public static TreeNode Read(byte[] utf8, string? file = null)
    {
        var source = new SourceText(WithoutMark(utf8), file);
        if (LooksLikeUtf16(source.Bytes))
        {
            throw new JsonSyntaxException(Position.Start, "", "the file is saved as UTF-16. Save it as UTF-8.");
        }

        if (!Utf8.IsValid(source.Bytes))
        {
            throw new JsonSyntaxException(source.At(FirstInvalid(source.Bytes)), "", "this character is not valid UTF-8. Save the file as UTF-8.");
        }

        return new JsonTree(source).Read();
    }

    private TreeNode Read()
    {
        var reader = new Utf8JsonReader(_source.Bytes, Options);
        Next(ref reader);
        var root = Value(ref reader, "");
        TryRead(ref reader);
        return root;
    }

    private TreeNode Value(ref Utf8JsonReader reader, string place)
    {
        var at = _source.At((int)reader.TokenStartIndex);
        return reader.TokenType switch
        {
            JsonTokenType.StartObject => Object(ref reader, at, place),
            JsonTokenType.StartArray => Array(ref reader, at, place),
            JsonTokenType.String => new TextNode(at, Text(ref reader, place)),
            // Adding zero turns minus zero into zero: both mean the same and must print the same.
            JsonTokenType.Number => new NumberNode(at, reader.GetDouble() + 0.0),
            JsonTokenType.True => new ToggleNode(at, true),
            JsonTokenType.False => new ToggleNode(at, false),
            _ => new EmptyNode(at),
        };
    }

    private ObjectNode Object(ref Utf8JsonReader reader, Position at, string place)
    {
        var members = new List<Member>();
        _advice.Opened((int)reader.TokenStartIndex, isObject: true, place);
        while (Next(ref reader) != JsonTokenType.EndObject)
        {
            var keyAt = _source.At((int)reader.TokenStartIndex);
            var key = Text(ref reader, place);
            var inner = JsonPlace.Key(place, key);
            _advice.Named(inner, (int)reader.TokenStartIndex);
            Next(ref reader);
            members.Add(new Member(key, keyAt, Value(ref reader, inner)));
        }

        _advice.Closed((int)reader.TokenStartIndex);
        return new ObjectNode(at, members);
    }

    private ArrayNode Array(ref Utf8JsonReader reader, Position at, string place)
    {
        var items = new List<TreeNode>();
        _advice.Opened((int)reader.TokenStartIndex, isObject: false, place);
        while (Next(ref reader) != JsonTokenType.EndArray)
        {
            items.Add(Value(ref reader, JsonPlace.Item(place, items.Count)));
        }

        _advice.Closed((int)reader.TokenStartIndex);
        return new ArrayNode(at, items);
    }

    private JsonTokenType Next(ref Utf8JsonReader reader)
    {
        if (!TryRead(ref reader))
        {
            throw _advice.Explain();
        }

        _advice.Took(reader.TokenType, (int)reader.TokenStartIndex, (int)reader.BytesConsumed);
        return reader.TokenType;
    }

    private bool TryRead(ref Utf8JsonReader reader)
    {
        try
        {
            return reader.Read();
        }
        catch (JsonException)
        {
            throw _advice.Explain();
        }
    }

    private string Text(ref Utf8JsonReader reader, string place)
    {
        try
        {
            return reader.GetString()!;
        }
        catch (InvalidOperationException)
        {
            throw new JsonSyntaxException(
                _source.At((int)reader.TokenStartIndex), place, "a \\u escape in this text stands for half a character. Write the character itself.");
        }
    }

    private static byte[] WithoutMark(byte[] utf8) => utf8.AsSpan().StartsWith("\uFEFF"u8) ? utf8[3..] : utf8;

    private static bool LooksLikeUtf16(ReadOnlySpan<byte> bytes) => bytes.Length >= 2
        && ((bytes[0] == 0xFF && bytes[1] == 0xFE) || (bytes[0] == 0xFE && bytes[1] == 0xFF) || bytes[0] == 0 || bytes[1] == 0);

    private static int FirstInvalid(ReadOnlySpan<byte> bytes)
    {
        var offset = 0;
        while (System.Text.Rune.DecodeFromUtf8(bytes[offset..], out _, out var length) == System.Buffers.OperationStatus.Done)
        {
            offset += length;
        }

        return offset;
    }
}
