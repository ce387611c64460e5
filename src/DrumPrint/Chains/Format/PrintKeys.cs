using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a print.</summary>
internal static class PrintKeys
{
    public static readonly NumberParameter Number = new("number", Unit.None, 1, 99, null, "First part of the file name.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter Name = new("name", TextKind.FileNamePart, "Second part of the file name.") { IsRequired = true };

    public static readonly TextParameter Bus = new("bus", TextKind.Bus, "Bus it is made from.") { IsRequired = true };

    public static readonly NumberParameter Level = new("level_db", Unit.Decibels, -120, 60, 0, "Level in the file and in the rough.");

    public static readonly ToggleParameter Optional = new("optional", false, "Whether it is an extra that stays out of the rough.");

    public static readonly Shape Shape = new("a print", "A file made from a bus.", [Number, Name, Bus, Level, Optional]);
}
