using DrumPrint.Audio;
using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tickets;

/// <summary>The keys of the part of a ticket that a print carries.</summary>
internal static class PartKeys
{
    /// <summary>The format this version writes.</summary>
    public const int Format = 2;

    /// <summary>The format without hashes of the print itself, which this version reads, and writes for a print that is made again.</summary>
    public const int WithoutSeal = 1;

    public static readonly NumberParameter Part = new("print_part", Unit.None, WithoutSeal, Format, null, "Format of this text.") { IsWhole = true, IsRequired = true };

    public static readonly NumberParameter Number = new("number", Unit.None, 1, 99, null, "Number of this print in the chain.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter AudioSha256 = new(FileSeal.AudioKey, TextKind.Sha256, "Hash of this print's own sample bytes.");

    public static readonly TextParameter HeaderSha256 = new(FileSeal.HeaderKey, TextKind.Sha256, "Hash of all that stands before the samples, with these digits as zeros.");

    public static readonly Shape Shape = new(
        "a print's part", "What it takes to make one print again, beside its raw files.",
        [
            Part, AudioSha256, HeaderSha256, RecordKeys.Engine, Number, RecordKeys.ChainSha256, RecordKeys.TempoSha256, EncodingKeys.Encoding, RecordKeys.Length, RecordKeys.Trim,
            RecordKeys.Tracks, RecordKeys.Impulses, RecordKeys.Chain, RecordKeys.Tempo,
        ]);
}
