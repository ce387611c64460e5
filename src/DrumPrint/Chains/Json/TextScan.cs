namespace DrumPrint.Chains.Json;

/// <summary>Steps over what stands between the tokens of a JSON text: space, comments, words, quoted texts.</summary>
/// <param name="source">The text.</param>
internal sealed class TextScan(SourceText source)
{
    /// <summary>The next offset that is neither space nor comment.</summary>
    /// <exception cref="JsonSyntaxException">A comment is not one.</exception>
    public int Skip(int at, string place)
    {
        at = SkipSpace(at);
        while (source[at] == '/')
        {
            at = SkipSpace(CommentEnd(at, place));
        }

        return source[at] == '#' ? throw new JsonSyntaxException(source.At(at), place, "a comment starts with //, not with #.") : at;
    }

    public int SkipSpace(int at)
    {
        while (source[at] is (byte)' ' or (byte)'\t' or (byte)'\r' or (byte)'\n')
        {
            at++;
        }

        return at;
    }

    private int CommentEnd(int start, string place)
    {
        var at = start + 2;
        switch (source[start + 1])
        {
            case (byte)'/':
                while (at < source.Length && source[at] != '\n')
                {
                    at++;
                }

                return at;
            case (byte)'*':
                while (at < source.Length)
                {
                    if (source[at] == '*' && source[at + 1] == '/')
                    {
                        return at + 2;
                    }

                    at++;
                }

                throw new JsonSyntaxException(source.At(start), place, "the comment that starts here is never closed with */.");
            default:
                throw new JsonSyntaxException(source.At(start), place, "a comment starts with //.");
        }
    }

    public int TextEnd(int start)
    {
        var at = start + 1;
        while (source[at] != '"')
        {
            at += source[at] == '\\' ? 2 : 1;
        }

        return at + 1;
    }

    public int WordEnd(int start)
    {
        var at = start;
        while (at < source.Length && source[at] > ' ' && source[at] is not ((byte)',' or (byte)':' or (byte)'{' or (byte)'}' or (byte)'[' or (byte)']' or (byte)'"' or (byte)'/'))
        {
            at++;
        }

        return Math.Max(at, Math.Min(start + 1, source.Length));
    }

    public bool HasFourHexDigits(int at) =>
        char.IsAsciiHexDigit((char)source[at]) && char.IsAsciiHexDigit((char)source[at + 1])
        && char.IsAsciiHexDigit((char)source[at + 2]) && char.IsAsciiHexDigit((char)source[at + 3]);
}
