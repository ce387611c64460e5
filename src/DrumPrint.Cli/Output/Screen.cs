using Spectre.Console;
using Spectre.Console.Rendering;

namespace DrumPrint.Cli.Output;

/// <summary>Where results are shown to a person: lines that wrap, and tables.</summary>
internal sealed class Screen(IAnsiConsole console)
{
    /// <summary>Stands wherever somebody is about to listen.</summary>
    public const string HearingNote = "Before you listen: turn the volume down first. Crushed tracks carry more energy than their peaks suggest; keep to the rules where you work.";

    /// <summary>Columns there are.</summary>
    public int Width => console.Profile.Width;

    /// <summary>Writes a line, wrapped where it must be.</summary>
    public void Line(string text = "") => console.WriteLine(Visible.Line(text));

    /// <summary>Draws a table or grid whose cells come from <see cref="Cell(string)"/>.</summary>
    public void Draw(Renderable table) => console.Write(table);

    /// <summary>A cell of a table.</summary>
    public static string Cell(string text) => Markup.Escape(Visible.Line(text));

    /// <summary>A cell of several lines.</summary>
    public static string Cell(IEnumerable<string> lines) => string.Join('\n', lines.Select(Cell));
}
