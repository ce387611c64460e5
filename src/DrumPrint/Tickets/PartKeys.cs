using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tickets;

/// <summary>The keys of the part of a ticket that a print carries.</summary>
internal static class PartKeys
{
    /// <summary>The format this version reads and writes.</summary>
    public const int Format = 1;

    public static readonly NumberParameter Part = new("print_part", Unit.None, Format, Format, null, "Format of this text.") { IsWhole = true, IsRequired = true };

    public static readonly NumberParameter Number = new("number", Unit.None, 1, 99, null, "Number of this print in the chain.") { IsWhole = true, IsRequired = true };

    public static readonly Shape Shape = new(
        "a print's part", "What it takes to make one print again, beside its raw files.",
        [
            Part, RecordKeys.Engine, Number, RecordKeys.ChainSha256, RecordKeys.TempoSha256, EncodingKeys.Encoding, RecordKeys.Length, RecordKeys.Trim,
            RecordKeys.Tracks, RecordKeys.Impulses, RecordKeys.Chain, RecordKeys.Tempo,
        ]);
}
