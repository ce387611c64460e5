using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The way to turn a track or a feed over.</summary>
internal static class PolarityKeys
{
    public const string Normal = "normal";
    public const string Inverted = "inverted";

    public static readonly ChoiceParameter Polarity = new(
        "polarity", [new(Normal, "as recorded"), new(Inverted, "turned over")], Normal, "Which way up the wave is.");
}
