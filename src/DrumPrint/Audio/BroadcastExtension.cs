namespace DrumPrint.Audio;

/// <summary>Fields of the <c>bext</c> chunk of a Broadcast Wave file (EBU Tech 3285, version 2).</summary>
/// <remarks>Loudness fields are null when unused.</remarks>
public sealed record BroadcastExtension
{
    public string Description { get; init; } = "";

    public string Originator { get; init; } = "";

    public string OriginatorReference { get; init; } = "";

    /// <summary>yyyy-mm-dd, or empty.</summary>
    public string OriginationDate { get; init; } = "";

    /// <summary>hh-mm-ss, or empty.</summary>
    public string OriginationTime { get; init; } = "";

    /// <summary>First frame of the file, in frames since midnight.</summary>
    public long TimeReference { get; init; }

    public double? LoudnessLufs { get; init; }

    public double? LoudnessRangeLu { get; init; }

    public double? MaxTruePeakDbtp { get; init; }

    public double? MaxMomentaryLufs { get; init; }

    public double? MaxShortTermLufs { get; init; }

    /// <summary>Rows in the format of EBU R 98, each ending in CR LF.</summary>
    public string CodingHistory { get; init; } = "";
}
