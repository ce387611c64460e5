using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a ride.</summary>
internal static class RideKeys
{
    public static readonly NumberParameter FromBar = new("from_bar", Unit.None, 1, 9999, null, "First bar of the ride.") { IsWhole = true };

    public static readonly NumberParameter ToBar = new("to_bar", Unit.None, 1, 9999, null, "Last bar of the ride, played to its end.") { IsWhole = true };

    public static readonly NumberParameter FromSeconds = new("from_s", Unit.Seconds, 0, 86400, null, "Start of the ride.");

    public static readonly NumberParameter ToSeconds = new("to_s", Unit.Seconds, 0, 86400, null, "End of the ride.");

    public static readonly NumberParameter Db = new("db", Unit.Decibels, -120, 60, null, "Change of level during the ride.") { IsRequired = true };

    public static readonly NumberParameter Fade = new("fade_ms", Unit.Milliseconds, 0, 60000, 50, "Time the change takes, at the start and again at the end.");

    public static readonly Shape Shape = new("a ride", "A stretch that is louder or softer than the rest.", [FromBar, ToBar, FromSeconds, ToSeconds, Db, Fade]);
}
