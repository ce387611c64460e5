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
    /// <summary>The files of a recording that was punched in; null for one file.</summary>
    public Splice? Splice { get; init; }

    /// <summary>Full path of every file.</summary>
    public IReadOnlyList<string> Paths => Splice is null ? [Path] : [.. Splice.Files.Select(f => f.Path)];

    public bool IsConverted => Info.SampleRate != SessionRateHz;

    /// <summary>The one channel of the file that is used, from 0; null for all of it.</summary>
    public int? Channel { get; init; }

    /// <summary>Channels of the track.</summary>
    public int Channels => Channel is null ? Info.Channels : 1;

    /// <summary>Length at the session's rate, without what is passed over at the start.</summary>
    public long Frames => Math.Max(0, (IsConverted ? RateConverter.OutputFrames(Info.Frames, Info.SampleRate, SessionRateHz) : Info.Frames) - SkippedFrames);

    /// <summary>What tracks share that can be read together.</summary>
    public RecordingKey Recording => new(Splice?.Key ?? Path, SkippedFrames);

    private long SkippedFrames => Track.SkippedFrames(SessionRateHz);

    /// <summary>Opens the recording.</summary>
    /// <param name="hashes">Which hashes are taken as it is read.</param>
    public ITrackSource Open(AudioHashes hashes) => Open(hashes, FileChannels);

    /// <summary>Channels of the file that are used, from 0.</summary>
    public IReadOnlyList<int> FileChannels => Channel is { } one ? [one] : [.. Enumerable.Range(0, Info.Channels)];

    /// <summary>Opens some channels of the recording's file.</summary>
    /// <param name="hashes">Which hashes are taken as it is read.</param>
    /// <param name="channels">Channels of the file, from 0, in the order in which the source gives them.</param>
    public ITrackSource Open(AudioHashes hashes, IReadOnlyList<int> channels)
    {
        var reader = new SoundReader(Splice?.Open(hashes) ?? AudioReader.Open(Path, hashes), Track.Name, channels);
        return IsConverted ? new ConvertedTrackSource(reader, SessionRateHz, SkippedFrames) : new FileTrackSource(reader, SkippedFrames);
    }
}
