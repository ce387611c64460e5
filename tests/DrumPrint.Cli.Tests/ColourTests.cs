using System.Diagnostics;
using System.Text.RegularExpressions;

namespace DrumPrint.Cli.Tests;

/// <summary>The real program on a terminal, which <c>script</c> makes where there is one.</summary>
public sealed partial class ColourTests : IDisposable
{
    private const string Script = "/usr/bin/script";

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_terminal_gets_colours_unless_NO_COLOR_says_otherwise()
    {
        if (!File.Exists(Script))
        {
            return;
        }

        Assert.Matches(Colour(), OnTerminal(noColour: null));
        Assert.DoesNotMatch(Colour(), OnTerminal(noColour: "1"));
    }

    [Fact]
    public void Where_there_is_no_terminal_nothing_steers_one()
    {
        var run = ProgramRun.OfProcess(_folder.Path, "selftest");

        Assert.Equal(0, run.ExitCode);
        Assert.DoesNotContain('\u001b', run.Output + run.Error);
    }

    private string OnTerminal(string? noColour)
    {
        var command = $"dotnet '{Path.Combine(AppContext.BaseDirectory, "drumprint.dll")}' selftest";
        var start = new ProcessStartInfo(Script, ["-qec", command, "/dev/null"]) { WorkingDirectory = _folder.Path, RedirectStandardOutput = true, RedirectStandardInput = true };
        start.Environment["TERM"] = "xterm-256color";
        start.Environment.Remove("NO_COLOR");
        if (noColour is not null)
        {
            start.Environment["NO_COLOR"] = noColour; // no-color.org: any text that is not empty
        }

        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.Contains("hold the same samples", output, StringComparison.Ordinal);
        return output;
    }

    // Source: ECMA-48, 8.3.117: select graphic rendition with a colour of the foreground, 30 to 39 and 90 to 97.
    [GeneratedRegex("\u001b\\[(?:[0-9]+;)*(?:3[0-9]|9[0-7])[0-9;]*m")]
    private static partial Regex Colour();
}
