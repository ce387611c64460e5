using Spectre.Console;

namespace DrumPrint.Cli.Output;

/// <summary>Standard output, wide enough for tables when it goes to a file.</summary>
internal static class Screen
{
    /// <summary>Stands wherever somebody is about to listen.</summary>
    public const string HearingNote = "Before you listen: turn the volume down first. Crushed tracks carry more energy than their peaks suggest; keep to the rules where you work.";

    private const int LogWidth = 132;

    public static IAnsiConsole Create()
    {
        var console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Out) });
        if (Console.IsOutputRedirected)
        {
            console.Profile.Width = LogWidth;
        }

        return console;
    }
}
