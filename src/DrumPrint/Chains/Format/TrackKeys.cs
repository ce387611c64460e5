using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a track.</summary>
internal static class TrackKeys
{
    public static readonly TextParameter File = new("file", TextKind.Path, "The raw recording.");

    public static readonly TextsParameter Files = new("files", "The raw recordings of a take that was punched in, in place of file: each begins where its time stamp says. Where two overlap, the later one of the list is heard.") { ArePaths = true };

    public static readonly ChannelParameter Channel = new("channel", "The one channel of the file that is used, by its number from 1 or by the name the file gives it; the whole file, mono or stereo, when left out.");

    public static readonly NumberParameter Level = new("level_db", Unit.Decibels, -120, 60, 0, "Level wherever the track is used.");

    public static readonly ToggleParameter Convert = new("convert", false, "Whether a file at another sample rate is resampled instead of refused.");

    public static readonly NumberParameter Latency = new("latency_ms", Unit.Milliseconds, 0, 1000, 0, "How late the recording came back from outside gear; the track is moved earlier by it, before its delay.");

    public static readonly PlaceParameter At = new("at_m", "Where the microphone stood: three numbers in metres, from any one point that all tracks share. The check holds delays against it; it changes no sound.");

    public static readonly TextParameter Notes = new("notes", TextKind.Title, "The microphone, where it stood, what there is to know of it; stands on the delivery sheet and changes no sound.");

    public static readonly Shape Shape = new(
        "a track",
        "One raw recording; a path alone is short for its file.",
        [File, Files, Channel, Level, PolarityKeys.Polarity, .. DelayKeys.All, DelayKeys.Exact, Latency, Convert, At, Notes])
    {
        Shorthand = File,
        OneOf = [File, Files],
    };
}
