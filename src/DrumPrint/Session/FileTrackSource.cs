using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Session;

/// <summary>A recording that is at the session's rate already.</summary>
internal sealed class FileTrackSource(AudioReader reader) : ITrackSource
{
    public int Channels => reader.Info.Channels;

    public long Frames => reader.Info.Frames;

    public string AudioSha256 => reader.AudioSha256;

    public string? FileSha256 => reader.FileSha256;

    public UInt128? Likeness => reader.Likeness;

    public void Read(AudioBlock block) => reader.Read(block);

    public void SkipToEnd() => reader.Skip(reader.Info.Frames);

    public void Dispose() => reader.Dispose();
}
