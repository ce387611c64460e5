namespace DrumPrint.Cli.Output;

/// <summary>Where results are shown to a person: lines that wrap between words, and tables.</summary>
/// <param name="writer">Where they go.</param>
/// <param name="width">Columns there are.</param>
internal sealed class Screen(TextWriter writer, int width)
{
    /// <summary>Stands wherever somebody is about to listen.</summary>
    public const string HearingNote = "Before you listen: turn the volume down first. Crushed tracks carry more energy than their peaks suggest; keep to the rules where you work.";

    /// <summary>Columns there are.</summary>
    public int Width => width;

    /// <summary>Writes a line, wrapped where it must be.</summary>
    public void Line(string text = "")
    {
        foreach (var line in TextWidth.Wrap(Visible.Line(text), width))
        {
            Raw(line);
        }
    }

    /// <summary>Writes a line as it is, whose characters can all be seen already.</summary>
    public void Raw(string line) => writer.WriteLine(line);
}
