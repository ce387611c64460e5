using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Chains.Format;

/// <summary>What to say of a processor that stands beside the list it belongs in.</summary>
internal static class MisplacedStages
{
    public static IReadOnlyDictionary<string, string> Refusals { get; } = Catalogue.Newest.ToDictionary(
        d => d.Key,
        d => $"'{d.Key}' is a processor, and processors stand in a list: \"through\": [ {{ \"{d.Key}\": {{ … }} }} ].");
}
