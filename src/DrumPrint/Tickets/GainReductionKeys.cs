using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tickets;

/// <summary>The keys of a processor's gain reduction.</summary>
internal static class GainReductionKeys
{
    public static readonly TextParameter Processor = new("processor", TextKind.Title, "Its name in the chain.") { IsRequired = true };

    public static readonly TextParameter Bus = new("bus", TextKind.Title, "The bus it stands in, one that feeds the print's; left out for the print's own.");

    public static readonly NumberParameter Median = new("median_db", Unit.Decibels, 0, 10_000, 0, "Median while it worked.");

    public static readonly NumberParameter Largest = new("largest_db", Unit.Decibels, 0, 10_000, 0, "The most it did; left out when the signal was shut off altogether.");

    public static readonly Shape Shape = new("a gain reduction", "How far a processor turned the signal down.", [Processor, Bus, Median, Largest]);
}
