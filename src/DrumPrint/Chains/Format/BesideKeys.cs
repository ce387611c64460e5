using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a file beside the prints: the two roughs and the click.</summary>
internal sealed class BesideKeys
{
    public static readonly BesideKeys Rough = new(
        "a rough", "The sum of the playing prints, before the drum bus.", 90, "RoughPreBus", level: null, isOn: true);

    public static readonly BesideKeys RoughWithBus = new(
        "a rough", "The sum of the playing prints, through the drum bus.", 91, "RoughWithBus", RoughLevel(), isOn: true);

    public static readonly BesideKeys Click = new(
        "the click",
        "A click made from the tempo map.",
        92,
        "Click",
        new NumberParameter("peak_db", Unit.Decibels, -60, 0, -12, "Peak level of the loudest click in dBFS."),
        isOn: false);

    private BesideKeys(string name, string summary, int number, string fileName, NumberParameter? level, bool isOn)
    {
        Number = new NumberParameter("number", Unit.None, 1, 99, number, "First part of the file name.") { IsWhole = true };
        Name = new TextParameter("name", TextKind.FileNamePart, "Second part of the file name.") { Default = fileName };
        Level = level;
        Shape = new Shape(name, summary, level is null ? [Number, Name] : [Number, Name, level]) { CanBeSwitched = true, IsOnByDefault = isOn };
    }

    public NumberParameter Number { get; }

    public TextParameter Name { get; }

    /// <summary>Null for the plain sum, which the prints must rebuild as it is.</summary>
    public NumberParameter? Level { get; }

    public Shape Shape { get; }

    private static NumberParameter RoughLevel() => new("level_db", Unit.Decibels, -120, 60, 0, "Level of the rough.");
}
