using DrumPrint.Chains;
using DrumPrint.Chains.Format;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>Names of delivered sound files, by the pattern of the chain.</summary>
internal static class DeliveredName
{
    /// <summary>The name that a print goes by; its own without a pattern.</summary>
    public static string Of(Chain chain, RecordedPrint print) =>
        chain.Delivery.Names is { } pattern ? NamePattern.Fill(pattern, chain.Song, print.Number, print.Name) + ".wav" : print.FileName;
}
