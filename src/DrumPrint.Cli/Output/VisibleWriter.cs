using System.Text;

namespace DrumPrint.Cli.Output;

/// <summary>Passes text on with every character made visible; lines stay lines.</summary>
internal sealed class VisibleWriter(TextWriter inner) : TextWriter
{
    private char? _half;

    public override Encoding Encoding => inner.Encoding;

    public override void Write(char value)
    {
        // What takes two to be one character is passed on whole.
        if (_half is null && char.IsHighSurrogate(value))
        {
            _half = value;
            return;
        }

        var text = _half is { } half ? new string([half, value]) : value.ToString();
        _half = null;
        inner.Write(value == '\r' ? "" : Visible.Lines(text));
    }

    public override void Write(string? value) => inner.Write(Visible.Lines((value ?? "").ReplaceLineEndings("\n")));

    public override void Write(char[] buffer, int index, int count) => Write(new string(buffer, index, count));

    public override void Write(ReadOnlySpan<char> buffer) => Write(new string(buffer));

    public override void Flush() => inner.Flush();
}
