using DrumPrint.Dsp;

namespace DrumPrint.Session;

/// <summary>A recording that is at the session's rate already.</summary>
/// <param name="reader">The file.</param>
/// <param name="skipped">Frames that are passed over at its start.</param>
internal sealed class FileTrackSource(SoundReader reader, long skipped) : ITrackSource
{
    private bool _hasBegun;

    public int Channels => reader.Channels;

    public long Frames => Math.Max(0, reader.File.Info.Frames - skipped);

    public string AudioSha256 => reader.File.AudioSha256;

    public string? FileSha256 => reader.File.FileSha256;

    public UInt128? Likeness => reader.File.Likeness;

    public void Read(AudioBlock block)
    {
        if (!_hasBegun)
        {
            _hasBegun = true;
            reader.Skip(skipped);
        }

        reader.Read(block);
    }

    public void Start(long frame)
    {
        _hasBegun = true;
        reader.Skip(skipped + frame);
    }

    public void SkipToEnd() => reader.File.Skip(reader.File.Info.Frames);

    public void Dispose() => reader.Dispose();
}
