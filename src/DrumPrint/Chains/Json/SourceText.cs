using System.Text;

namespace DrumPrint.Chains.Json;

/// <summary>The bytes of a file and where its lines start.</summary>
internal sealed class SourceText
{
    private readonly byte[] _bytes;
    private readonly string? _file;
    private readonly List<int> _lineStarts = [0];

    // Where the last answer ended: a file is read from front to back, so the next one starts there.
    private (int Offset, int Line, int Column) _last = (0, 0, 1);

    /// <param name="bytes">The bytes.</param>
    /// <param name="file">The file that positions name; null for the one that is read in the first place.</param>
    public SourceText(byte[] bytes, string? file = null)
    {
        (_bytes, _file) = (bytes, file);
        for (var i = 0; i < bytes.Length; i++)
        {
            if (bytes[i] == '\n')
            {
                _lineStarts.Add(i + 1);
            }
        }
    }

    public ReadOnlySpan<byte> Bytes => _bytes;

    public int Length => _bytes.Length;

    /// <summary>The byte at an offset; 0 at the end.</summary>
    public byte this[int offset] => offset < _bytes.Length ? _bytes[offset] : (byte)0;

    /// <summary>Line and column of a byte; a column is a character, however many bytes it takes.</summary>
    public Position At(int offset)
    {
        var found = _lineStarts.BinarySearch(offset);
        var line = found >= 0 ? found : ~found - 1;
        var (start, column) = line == _last.Line && offset >= _last.Offset ? (_last.Offset, _last.Column) : (_lineStarts[line], 1);
        for (var i = start; i < Math.Min(offset, _bytes.Length); i++)
        {
            if (IsCharacterStart(_bytes[i]))
            {
                column++;
            }
        }

        _last = (offset, line, column);
        return new Position(line + 1, column) { File = _file };
    }

    /// <summary>White space at the start of the line that holds an offset, in bytes.</summary>
    public int Indent(int offset)
    {
        var start = LineStart(offset);
        var at = start;
        while (this[at] is (byte)' ' or (byte)'\t')
        {
            at++;
        }

        return at - start;
    }

    /// <summary>The white space at the start of an offset's line.</summary>
    public string Indentation(int offset) => Slice(LineStart(offset), LineStart(offset) + Indent(offset));

    /// <summary>Whether nothing but white space stands before an offset on its line.</summary>
    public bool IsFirstOfLine(int offset) => LineStart(offset) + Indent(offset) == offset;

    /// <summary>Whether two offsets lie on one line.</summary>
    public bool IsSameLine(int offset, int other) => LineStart(offset) == LineStart(other);

    /// <summary>Text between two offsets.</summary>
    public string Slice(int start, int end) => Encoding.UTF8.GetString(_bytes, start, end - start);

    /// <summary>The character at an offset; U+0000 at the end.</summary>
    public Rune RuneAt(int offset)
    {
        Rune.DecodeFromUtf8(_bytes.AsSpan(Math.Min(offset, _bytes.Length)), out var rune, out _);
        return offset < _bytes.Length ? rune : default;
    }

    private int LineStart(int offset)
    {
        var found = _lineStarts.BinarySearch(offset);
        return _lineStarts[found >= 0 ? found : ~found - 1];
    }

    private static bool IsCharacterStart(byte b) => (b & 0xC0) != 0x80;
}
