using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a feed.</summary>
internal static class FeedKeys
{
    public static readonly NumberParameter Level = new("level_db", Unit.Decibels, -120, 60, 0, "Level of the feed.");

    public static readonly NumberParameter Pan = new("pan_pct", Unit.Percent, -100, 100, null, "From -100 hard left to 100 hard right; a mono feed stays mono when left out.");

    public static readonly ShapesParameter Ride = new("ride", RideKeys.Shape, "Level changes over time.");

    public static readonly ToggleParameter Off = new("off", false, "true leaves it out of the sound and keeps it in the chain.") { AlsoCalled = ["bypass", "mute", "muted", "disabled"] };

    public static readonly Shape Shape = new(
        "a feed",
        "One input of a bus; a number alone is short for its level.",
        [Level, Pan, PolarityKeys.Polarity, .. DelayKeys.All, DelayKeys.Exact, Ride, Off])
    {
        Shorthand = Level,
    };
}
