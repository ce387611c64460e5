using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tickets;

/// <summary>The keys of a ticket.</summary>
internal static class TicketKeys
{
    /// <summary>The format this version writes.</summary>
    public const int Format = 2;

    /// <summary>The format of tickets whose prints carry no hashes of themselves, which this version reads.</summary>
    public const int WithoutSeals = 1;

    public static readonly NumberParameter Ticket = new("ticket", Unit.None, WithoutSeals, Format, null, "Format of this file.") { IsWhole = true, IsRequired = true };

    public static readonly NumberParameter NullPeak = new("null_peak_dbfs", Unit.None, -10_000, 10_000, null, "Largest difference between the sum of the playing prints and the rough, as written; left out when it was not measured or nothing is left.");

    public static readonly ToggleParameter NullIsExact = new("null_is_exact", false, "Whether the playing prints add up to the rough to the last bit.");

    public static readonly ShapesParameter Prints = new("prints", TicketPrintKeys.Shape, "Every file that was written.")
    {
        IsRequired = true,
        WhenEmpty = "there is no print.",
    };

    public static readonly TextsParameter Notes = new("notes", "What was done beyond the chain's levels and processors.");

    public static readonly TextsParameter Findings = new("findings", "What was there to look at.");

    public static readonly Shape Shape = new(
        "a ticket", "The record of one run: what went in, what came out, by hash.",
        [
            Ticket, RecordKeys.Engine, RecordKeys.ChainSha256, RecordKeys.TempoSha256, EncodingKeys.Encoding, RecordKeys.Length, RecordKeys.Trim,
            NullPeak, NullIsExact, RecordKeys.Tracks, RecordKeys.Impulses, Prints, Notes, Findings, RecordKeys.Chain, RecordKeys.Tempo,
        ]);
}
