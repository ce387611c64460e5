namespace DrumPrint.Chains.Json;

/// <summary>Follows the open brackets of a JSON text, and sees by the indentation which of them was forgotten.</summary>
/// <param name="source">The text.</param>
internal sealed class BracketWatch(SourceText source)
{
    private readonly Stack<OpenBracket> _open = new();

    // For each open bracket where the first thing inside stands that begins a line of its own; −1 until there is one.
    private readonly Stack<int> _firstInside = new();

    // The first thing that stands too far to the left to be inside the bracket that is open there.
    private (OpenBracket Bracket, int Offset, string Place)? _outdented;

    /// <summary>How many are open.</summary>
    public int Count => _open.Count;

    /// <summary>The one that was opened last.</summary>
    public OpenBracket Innermost => _open.Peek();

    /// <summary>What the innermost one is the value of.</summary>
    public string Place => _open.TryPeek(out var bracket) ? bracket.Place : "";

    /// <summary>Whether the innermost one is a group, not a list.</summary>
    public bool IsInObject => _open.TryPeek(out var bracket) && bracket.IsObject;

    public void Open(int offset, bool isObject, string place)
    {
        NoteInside(offset);
        _open.Push(new OpenBracket(offset, isObject, place));
        _firstInside.Push(-1);
    }

    /// <summary>Closes the innermost one.</summary>
    /// <param name="offset">Where the closing one stands.</param>
    public void Close(int offset)
    {
        Look(offset, isClosing: true);
        if (_outdented?.Bracket == _open.Peek() && source.IsFirstOfLine(offset) && source.Indentation(offset) == source.Indentation(_open.Peek().Offset))
        {
            // Closed where it should be, so what stood too far to the left was only set so.
            _outdented = null;
        }

        _open.Pop();
        _firstInside.Pop();
    }

    /// <summary>A key stands inside the innermost one.</summary>
    public void Inside(int offset)
    {
        Look(offset, isClosing: false);
        NoteInside(offset);
    }

    /// <summary>What to say of a bracket that was forgotten; null when none seems to be.</summary>
    public JsonSyntaxException? Forgotten() => _outdented is not { } found
        ? null
        : new JsonSyntaxException(source.At(found.Offset), found.Place, found.Bracket.MissingBefore(source));

    /// <summary>What to say of it at the end of the file: where it opens, and before which line it should have been closed.</summary>
    public JsonSyntaxException? NeverClosed() => _outdented is not { } found
        ? null
        : new JsonSyntaxException(
            source.At(found.Bracket.Offset),
            found.Place,
            FormattableString.Invariant($"the {found.Bracket.Opening} that opens here is never closed: a {found.Bracket.Closing} seems to be missing before line {source.At(found.Offset).Line}."));

    /// <summary>Takes down the first thing that stands too far to the left.</summary>
    public void Look(int offset, bool isClosing)
    {
        if (_outdented is null && IsOutdented(offset, isClosing))
        {
            _outdented = (_open.Peek(), offset, Place);
        }
    }

    // People put what is inside a bracket further to the right than the line that opens it, and its end no further to the left.
    public bool IsOutdented(int offset, bool isClosing)
    {
        if (!_open.TryPeek(out var bracket) || !source.IsFirstOfLine(offset) || source.IsSameLine(offset, bracket.Offset))
        {
            return false;
        }

        // White space of different kinds cannot be compared.
        var (inner, outer) = (source.Indentation(offset), source.Indentation(bracket.Offset));
        var isLeft = outer.StartsWith(inner, StringComparison.Ordinal);
        return isClosing
            ? isLeft && inner.Length < outer.Length
            : isLeft && outer.Length > 0 && IsLeftOfOthers(inner);
    }

    // Whoever sets everything inside a bracket level with its line has not forgotten to close it.
    private bool IsLeftOfOthers(string indentation)
    {
        var first = _firstInside.Peek();
        return first < 0 || source.Indentation(first) is var others && others.StartsWith(indentation, StringComparison.Ordinal) && others.Length > indentation.Length;
    }

    private void NoteInside(int offset)
    {
        if (_firstInside.TryPeek(out var first) && first < 0 && source.IsFirstOfLine(offset) && !source.IsSameLine(offset, _open.Peek().Offset))
        {
            _firstInside.Pop();
            _firstInside.Push(offset);
        }
    }
}
