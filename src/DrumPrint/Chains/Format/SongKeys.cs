using DrumPrint.Audio;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of <c>song</c>.</summary>
internal static class SongKeys
{
    public const string Unsaid = "unsaid";
    public const string Drummer = "drummer";
    public const string Audience = "audience";

    public static readonly TextParameter Title = new("title", TextKind.Title, "Title as people write it.") { IsRequired = true };

    public static readonly TextParameter Code = new("code", TextKind.FileNamePart, "Short form of the title used in file names.") { IsRequired = true };

    public static readonly NumberParameter Version = new("version", Unit.None, 1, 999, 1, "Version of the delivery, used in file names.") { IsWhole = true };

    public static readonly NumberParameter Rate = new("rate_hz", Unit.Hertz, AudioReader.LowestRateHz, AudioReader.HighestRateHz, null, "Sample rate of every track and print.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter Tempo = new("tempo", TextKind.Path, "File with bars, metres and tempi: a tempo map, or a Standard MIDI File.");

    public static readonly NumberParameter FirstBar = new("first_bar", Unit.None, 1, 9999, 1, "Number of the bar with which a Standard MIDI File in tempo begins; a MIDI file itself does not say. A tempo map does.") { IsWhole = true };

    public static readonly NumberParameter PanLaw = new("pan_law_db", Unit.Decibels, -6, 0, 0, "Level of a centred mono feed on each side.");

    public static readonly NumberParameter Temperature = new("temperature_c", Unit.None, -20, 50, 20, "Air temperature in degrees Celsius; turns metres into time.");

    public static readonly ChoiceParameter Perspective = new(
        "perspective",
        [new(Unsaid, "nothing is said of it"), new(Drummer, "left and right are the drummer's"), new(Audience, "left and right are those of whoever faces the kit")],
        Unsaid,
        "Whose left and right the stereo prints have; stands on the delivery sheet and changes no sound.");

    public static readonly TextParameter Notes = new("notes", TextKind.Title, "What the mixer should know of the song: its intent, what must be honoured; stands on the delivery sheet and changes no sound.");

    public static readonly Shape Shape = new("the song", "What the whole session shares.", [Title, Code, Version, Rate, Tempo, FirstBar, PanLaw, Temperature, Perspective, Notes]);
}
