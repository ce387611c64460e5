using System.Text;

namespace DrumPrint.Cli.Output;

/// <summary>Takes text as UTF-8 bytes and hands it to a writer.</summary>
/// <param name="writer">Where the text goes; it stays open.</param>
internal sealed class TextStream(TextWriter writer) : Stream
{
    private readonly Decoder _decoder = Encoding.UTF8.GetDecoder();
    private char[] _chars = new char[4096];

    public override bool CanRead => false;

    public override bool CanSeek => false;

    public override bool CanWrite => true;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    // A character may be cut in two between one call and the next; the decoder keeps its first part.
    public override void Write(ReadOnlySpan<byte> buffer)
    {
        if (_chars.Length < buffer.Length + 1)
        {
            _chars = new char[buffer.Length + 1];
        }

        writer.Write(_chars, 0, _decoder.GetChars(buffer, _chars, flush: false));
    }

    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    public override void Flush() => writer.Flush();

    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();
}
