using DrumPrint.Audio;

namespace DrumPrint.Chains;

/// <summary>How prints are written.</summary>
public sealed record OutputSettings
{
    /// <summary>Pcm16, Pcm24 or Float32.</summary>
    public SampleEncoding Encoding { get; init; } = SampleEncoding.Pcm24;

    /// <summary>Dither; null lets the word length decide (TPDF at 16 bit, none otherwise).</summary>
    public bool? Dither { get; init; }

    /// <summary>Seconds after the last raw frame; null renders tails until they are measured silent.</summary>
    public double? TailS { get; init; }

    /// <summary>Longest measured tail in seconds.</summary>
    public double TailCapS { get; init; } = 12;

    /// <summary>Whether prints above 0 dBFS are lowered together by one trim instead of refused.</summary>
    public bool LowerTogether { get; init; }

    /// <summary>Whether the level between the samples counts, and not the largest sample.</summary>
    public bool OverAtTruePeak { get; init; }

    /// <summary>Number and name of the rough before the drum bus; null for none.</summary>
    public RoughPrint? Rough { get; init; } = new(90, "RoughPreBus", 0);

    /// <summary>Number, name and level of the rough through the drum bus; null for none.</summary>
    public RoughPrint? RoughWithBus { get; init; } = new(91, "RoughWithBus", 0);

    /// <summary>Number, name and peak level of the click made from the tempo map; null for none.</summary>
    public RoughPrint? Click { get; init; }
}

/// <summary>A file beside the prints.</summary>
/// <param name="Number">First part of the file name, 1 to 99.</param>
/// <param name="Name">Second part of the file name.</param>
/// <param name="LevelDb">Level of a rough; peak level of a click.</param>
public sealed record RoughPrint(int Number, string Name, double LevelDb);
