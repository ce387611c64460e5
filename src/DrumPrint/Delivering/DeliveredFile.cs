using DrumPrint.Audio;

namespace DrumPrint.Delivering;

/// <summary>One file of a delivery, as its manifest takes it down.</summary>
/// <param name="Name">Its name, without a folder.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Bytes">Its length.</param>
/// <param name="FileSha256">Hash of all its bytes.</param>
public sealed record DeliveredFile(string Name, DeliveredKind Kind, long Bytes, string FileSha256)
{
    /// <summary>First part of a print's name; null for what is no sound.</summary>
    public int? Number { get; init; }

    /// <summary>Second part of a print's name; null for what is no sound.</summary>
    public string? Title { get; init; }

    /// <summary>Which side of a stereo sound it holds.</summary>
    public SoundSide Side { get; init; }

    /// <summary>What the chain calls a raw track or impulse; null for all else.</summary>
    public string? Called { get; init; }

    /// <summary>Hash of the sample bytes of a raw track or impulse, as its own file holds them; null for all else.</summary>
    public string? SourceSha256 { get; init; }

    /// <summary>What was heard; null for what is no sound.</summary>
    public DeliveredSound? Sound { get; init; }

    /// <summary>What became of it since the delivery before.</summary>
    public DeliveredState State { get; init; }
}

/// <summary>The samples of a delivered file.</summary>
/// <param name="Channels">1 or 2.</param>
/// <param name="Frames">Length.</param>
/// <param name="Encoding">How samples are stored.</param>
/// <param name="AudioSha256">Hash of the sample bytes, lowest byte first.</param>
/// <param name="Pieces">Hash of each whole second, 16 hexadecimal digits each, one after the other; they find a file again that was cut.</param>
public sealed record DeliveredSound(int Channels, long Frames, SampleEncoding Encoding, string AudioSha256, string Pieces);
