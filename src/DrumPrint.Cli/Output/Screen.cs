using Spectre.Console;

namespace DrumPrint.Cli.Output;

/// <summary>Standard output, wide enough for tables when it goes to a file.</summary>
internal static class Screen
{
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
