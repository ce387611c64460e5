using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a print.</summary>
internal static class PrintKeys
{
    public const string Unsaid = "unsaid";
    public const string Must = "must";
    public const string Nice = "nice";
    public const string FirstOut = "first_out";

    public static readonly NumberParameter Number = new("number", Unit.None, 1, 99, null, "First part of the file name.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter Name = new("name", TextKind.FileNamePart, "Second part of the file name.") { IsRequired = true };

    public static readonly TextParameter Bus = new("bus", TextKind.Bus, "Bus it is made from.") { IsRequired = true };

    public static readonly NumberParameter Level = new("level_db", Unit.Decibels, -120, 60, 0, "Level in the file and in the rough.");

    public static readonly ToggleParameter Optional = new("optional", false, "Whether it is an extra that stays out of the rough.");

    public static readonly TextParameter Notes = new("notes", TextKind.Title, "What the print is for; stands on the delivery sheet and changes no sound.");

    public static readonly ChoiceParameter Keep = new(
        "keep",
        [
            new(Unsaid, "nothing is said of it"),
            new(Must, "the kit is not itself without it"),
            new(Nice, "nice to have"),
            new(FirstOut, "leave it out first when it is crowded"),
        ],
        Unsaid,
        "How much the print matters to the mixer; stands on the delivery sheet and changes no sound.");

    public static readonly Shape Shape = new("a print", "A file made from a bus.", [Number, Name, Bus, Level, Optional, Notes, Keep]);
}
