namespace DrumPrint.Chains.Json;

/// <summary>A bracket that is not closed yet.</summary>
/// <param name="Offset">Where it opens.</param>
/// <param name="IsObject">Whether it is a brace.</param>
/// <param name="Place">What it holds.</param>
internal readonly record struct OpenBracket(int Offset, bool IsObject, string Place)
{
    /// <summary>The character that closes it.</summary>
    public char Closing => IsObject ? '}' : ']';

    /// <summary>The character it is.</summary>
    public char Opening => IsObject ? '{' : '[';

    /// <summary>What to say at the first thing that does not belong inside any more.</summary>
    public string MissingBefore(SourceText source) => $"a {Closing} seems to be missing before this: {Words(source)} is still open.";

    /// <summary>The bracket and its line: <c>the { of line 2</c>.</summary>
    public string Words(SourceText source) => FormattableString.Invariant($"the {Opening} of line {source.At(Offset).Line}");
}
