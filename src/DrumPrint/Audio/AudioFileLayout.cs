using DrumPrint.Flac;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Audio;

/// <summary>Where things are in an audio file.</summary>
/// <param name="Info">What the header says.</param>
/// <param name="Samples">Where the samples are: whole frames only.</param>
/// <param name="ByteOrder">How the bytes of a sample are ordered.</param>
/// <param name="Extras">Chunks that are neither format, samples, <c>bext</c> nor filler.</param>
internal sealed record AudioFileLayout(AudioFileInfo Info, ChunkPlace Samples, ByteOrder ByteOrder, IReadOnlyList<ChunkPlace> Extras)
{
    /// <summary>What a FLAC file says of its coded samples; null where they lie in the file as they are.</summary>
    public FlacStreamInfo? Flac { get; init; }

    /// <summary>Bytes of one frame, as WAV holds it.</summary>
    public int FrameBytes => Info.Channels * Info.Encoding.Bytes();

    /// <summary>Bytes of all frames, as WAV holds them.</summary>
    public long AllBytes => Info.Frames * FrameBytes;

    /// <summary>The samples of the open file.</summary>
    /// <param name="handle">The file.</param>
    /// <param name="proves">Whether coded samples are held against the file's own hash of them, once all have been read in order.</param>
    public SampleBytes Open(SafeFileHandle handle, bool proves) => Flac is null ? new PlainBytes(handle, this) : new FlacBytes(handle, this, proves);
}
