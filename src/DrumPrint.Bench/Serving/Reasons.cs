using DrumPrint.Chains;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Session;

namespace DrumPrint.Bench.Serving;

/// <summary>Says what went wrong.</summary>
internal static class Reasons
{
    /// <summary>One or more sentences for the page.</summary>
    public static string Of(Exception exception) => exception switch
    {
        ChainException chain => string.Join(" ", chain.Problems.Select(p => p.Message)),
        InputException input => string.Join(" ", input.Problems),
        DrumPrintException known => known.Message,
        SettingsException settings => settings.Message,
        _ => $"{FileReason.PathOf(exception) ?? "A file"}: this cannot be read or written: {FileReason.Of(exception)}.",
    };
}
