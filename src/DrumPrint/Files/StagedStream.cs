namespace DrumPrint.Files;

/// <summary>A <see cref="StagedFile"/> for what writes to streams.</summary>
internal sealed class StagedStream(StagedFile file) : Stream
{
    private long _length;

    public override bool CanRead => false;

    public override bool CanSeek => true;

    public override bool CanWrite => true;

    public override long Length => _length;

    public override long Position { get; set; }

    public override void Flush()
    {
        // Nothing is held back here.
    }

    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => Position = offset + origin switch
    {
        SeekOrigin.Begin => 0,
        SeekOrigin.Current => Position,
        _ => _length,
    };

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        file.WriteAt(Position, buffer);
        Position += buffer.Length;
        _length = Math.Max(_length, Position);
    }
}
