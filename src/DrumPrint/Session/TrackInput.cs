using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp.Resampling;

namespace DrumPrint.Session;

/// <summary>A raw track found on disk and fit for the session.</summary>
/// <param name="Track">The chain's words.</param>
/// <param name="Path">Full path.</param>
/// <param name="Info">The file's header.</param>
/// <param name="SessionRateHz">Rate the session runs at.</param>
internal sealed record TrackInput(Track Track, string Path, AudioFileInfo Info, int SessionRateHz)
{
    public bool IsConverted => Info.SampleRate != SessionRateHz;

    /// <summary>Length at the session's rate.</summary>
    public long Frames => IsConverted ? RateConverter.OutputFrames(Info.Frames, Info.SampleRate, SessionRateHz) : Info.Frames;

    /// <summary>Opens the recording.</summary>
    /// <param name="hashes">Which hashes are taken as it is read.</param>
    public ITrackSource Open(AudioHashes hashes)
    {
        var reader = new SoundReader(AudioReader.Open(Path, hashes), Track.Name);
        return IsConverted ? new ConvertedTrackSource(reader, SessionRateHz) : new FileTrackSource(reader);
    }
}
