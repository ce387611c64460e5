using DrumPrint.Audio;

namespace DrumPrint.Tickets;

/// <summary>A raw track or impulse as it went in.</summary>
/// <param name="Name">The word the chain uses.</param>
/// <param name="File">Its path, as the chain gives it.</param>
/// <param name="AudioSha256">Hash of the sample bytes.</param>
/// <param name="FileSha256">Hash of the whole file; null where it was not taken down.</param>
/// <param name="Frames">Length.</param>
/// <param name="RateHz">Sample rate.</param>
/// <param name="Channels">Number of channels.</param>
/// <param name="Encoding">How samples are stored.</param>
public sealed record RecordedInput(string Name, string File, string AudioSha256, string? FileSha256, long Frames, int RateHz, int Channels, SampleEncoding Encoding)
{
    /// <summary>Frame of its track at which it begins, where the track is of several files; else null.</summary>
    public long? StartFrame { get; init; }

    /// <summary>Whether a file's header allows it to be this input.</summary>
    public bool Fits(AudioFileInfo info)
    {
        ArgumentNullException.ThrowIfNull(info);
        return info.Frames == Frames && info.SampleRate == RateHz && info.Channels == Channels && info.Encoding == Encoding;
    }
}
