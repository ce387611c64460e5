using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>The setting by which a band or a processor hears a part of a stereo signal only.</summary>
internal static class Sides
{
    public const string Both = "both";
    public const string Mid = "mid";
    public const string Side = "side";
    public const string Left = "left";
    public const string Right = "right";

    /// <summary>A declaration of its own.</summary>
    /// <param name="what">What is declared, in one word.</param>
    public static ChoiceParameter On(string what) => new(
        "on",
        [
            new(Both, "All of it."),
            new(Mid, "What both sides have in common, (L + R) / 2."),
            new(Side, "What makes them different, (L − R) / 2."),
            new(Left, "The left channel."),
            new(Right, "The right channel."),
        ],
        Both,
        $"What of a stereo signal the {what} works on; the rest passes as it is.")
    {
        IsLeftOutAtDefault = true,
    };

    /// <summary>Whether it is middle or side, not left or right.</summary>
    public static bool IsMidSide(string side) => side is Mid or Side;

    /// <summary>Whether it is the first of two channels, or of middle and side.</summary>
    public static bool IsFirst(string side) => side is Mid or Left;

    /// <summary>Refuses a part of a signal that has none.</summary>
    /// <exception cref="SettingsException">The signal is mono.</exception>
    public static void Check(ChoiceParameter on, string side, AudioFormat format)
    {
        if (side != Both && format.Channels < 2)
        {
            throw new SettingsException(on, $"'{on.Key}' is {side}, which needs a stereo signal; this one is mono. It takes both.");
        }
    }
}
