using DrumPrint.Dsp;

namespace DrumPrint.Session;

/// <summary>A recording that is at the session's rate already.</summary>
internal sealed class FileTrackSource(SoundReader reader) : ITrackSource
{
    public int Channels => reader.File.Info.Channels;

    public long Frames => reader.File.Info.Frames;

    public string AudioSha256 => reader.File.AudioSha256;

    public string? FileSha256 => reader.File.FileSha256;

    public UInt128? Likeness => reader.File.Likeness;

    public void Read(AudioBlock block) => reader.Read(block);

    public void SkipToEnd() => reader.File.Skip(reader.File.Info.Frames);

    public void Dispose() => reader.Dispose();
}
