using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a tempo file.</summary>
internal static class TempoKeys
{
    /// <summary>The format this version reads.</summary>
    public const int Format = 1;

    public static readonly NumberParameter TempoMap = new("tempo_map", Unit.None, Format, Format, null, "Format of this file.") { IsWhole = true, IsRequired = true };

    public static readonly ShapesParameter Bars = new("bars", TempoBarKeys.Shape, "Where metre or tempo change; the first entry starts the song at time 0.")
    {
        IsRequired = true,
        WhenEmpty = "there is no bar. Add at least the first, such as { \"from_bar\": 1, \"metre\": \"4/4\", \"bpm\": 104 }.",
    };

    public static readonly NumberParameter LastBar = new("last_bar", Unit.None, 1, 9999, null, "Last bar of the song.") { IsWhole = true, IsRequired = true };

    public static readonly ShapesParameter Sections = new("sections", SectionKeys.Shape, "Named places.");

    public static readonly Shape Shape = new("a tempo map", "Where bars and beats fall in time.", [TempoMap, Bars, LastBar, Sections]);
}
