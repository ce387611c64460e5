#pragma warning disable RS0030 // The one place that knows the console.
using System.Globalization;
using System.Text;
using Spectre.Console;

namespace DrumPrint.Cli.Output;

/// <summary>The one door to the console. Names, titles and whatever else stands in a file or on the disk come from others. None
/// of their characters reaches a terminal unless it can be seen.</summary>
internal static class Terminal
{
    // Where nobody says how wide it is. Own bar: what most pagers and mails show without wrapping again.
    private const int PipedWidth = 100;
    private const int LeastWidth = 40;
    private const int MostWidth = 1000;

    /// <summary>Whether results go to a file or another program.</summary>
    public static bool IsOutputRedirected => Console.IsOutputRedirected;

    /// <summary>Whether messages do.</summary>
    public static bool IsErrorRedirected => Console.IsErrorRedirected;

    /// <summary>Standard output, for what writes by itself.</summary>
    public static TextWriter Output => new VisibleWriter(Console.Out);

    /// <summary>Standard error, for what writes by itself.</summary>
    public static TextWriter Error => new VisibleWriter(Console.Error);

    /// <summary>Has everything written in UTF-8, without a mark.</summary>
    public static void UseUtf8() => Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Writes a line of result.</summary>
    public static void Tell(string line) => Console.Out.WriteLine(Visible.Line(line));

    /// <summary>Writes a result of many lines that end as they are.</summary>
    public static void TellLines(string text) => Output.Write(text);

    /// <summary>Writes a message, one line.</summary>
    public static void Say(string line) => Try(() => Console.Error.WriteLine(Visible.Line(line)));

    /// <summary>Writes a message of several lines. All but the first are set in, so that a name with a line break in it forges no message.</summary>
    public static void SayLines(string text) => Try(() => Error.WriteLine(text.ReplaceLineEndings("\n  ")));

    /// <summary>Waits until a key is pressed, where there is a keyboard.</summary>
    public static void WaitForKey()
    {
        if (!Console.IsInputRedirected)
        {
            Console.ReadKey(intercept: true);
        }
    }

    /// <summary>Standard output for JSON, which has its own way of making characters visible.</summary>
    public static Stream Json() => new TextStream(Console.Out);

    /// <summary>Standard output for tables and lines that wrap: as wide as the window, or where it goes to a file or another program, as
    /// COLUMNS says.</summary>
    public static Screen Screen() => new(Console.Out, Console.IsOutputRedirected ? Columns ?? PipedWidth : Math.Max(LeastWidth, Create(Console.Out).Profile.Width));

    // Where standard error is full or closed nobody reads; the exit code still tells.
    private static void Try(Action say)
    {
        try
        {
            say();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ObjectDisposedException)
        {
            return;
        }
    }

    private static int? Columns =>
        int.TryParse(Environment.GetEnvironmentVariable("COLUMNS"), NumberStyles.None, CultureInfo.InvariantCulture, out var columns) && columns is >= LeastWidth and <= MostWidth ? columns : null;

    /// <summary>Standard error for a progress bar.</summary>
    public static IAnsiConsole Progress() => Create(Console.Error);

    private static IAnsiConsole Create(TextWriter writer)
    {
        var console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(writer) });
        console.Pipeline.Attach(new VisibleHook());
        return console;
    }
}
