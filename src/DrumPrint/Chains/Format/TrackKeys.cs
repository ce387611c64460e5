using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a track.</summary>
internal static class TrackKeys
{
    public static readonly TextParameter File = new("file", TextKind.Path, "The raw recording.") { IsRequired = true };

    public static readonly NumberParameter Level = new("level_db", Unit.Decibels, -120, 60, 0, "Level wherever the track is used.");

    public static readonly ToggleParameter Convert = new("convert", false, "Whether a file at another sample rate is resampled instead of refused.");

    public static readonly TextParameter Notes = new("notes", TextKind.Title, "The microphone, where it stood, what there is to know of it; stands on the delivery sheet and changes no sound.");

    public static readonly Shape Shape = new(
        "a track",
        "One raw recording; a path alone is short for its file.",
        [File, Level, PolarityKeys.Polarity, .. DelayKeys.All, DelayKeys.Exact, Convert, Notes])
    {
        Shorthand = File,
    };
}
