using DrumPrint.Dsp;

namespace DrumPrint.Session;

/// <summary>A raw recording at the session's rate, read from start to end.</summary>
internal interface ITrackSource : IDisposable
{
    int Channels { get; }

    /// <summary>Length at the session's rate.</summary>
    long Frames { get; }

    /// <summary>Hash of the file's samples, once read to the end, where it was asked for.</summary>
    string AudioSha256 { get; }

    /// <summary>Hash of the whole file, once read to the end; null where it was not asked for.</summary>
    string? FileSha256 { get; }

    /// <summary>Quick hash of the file's samples, once read to the end; null where it was not asked for.</summary>
    UInt128? Likeness { get; }

    /// <summary>Goes to a frame before the first one is read.</summary>
    void Start(long frame);

    /// <summary>Fills the block with the next frames; silence after the end.</summary>
    void Read(AudioBlock block);

    /// <summary>Passes over what is left, so that the hashes are known.</summary>
    void SkipToEnd();
}
