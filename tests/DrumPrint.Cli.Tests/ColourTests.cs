using System.Diagnostics;
using System.Text.RegularExpressions;
using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Cli.Tests;

/// <summary>The real program on a terminal, which <c>script</c> makes where there is one.</summary>
public sealed partial class ColourTests : IDisposable
{
    private const string Script = "/usr/bin/script";

    // A print shows how far it is, in colours.
    private static readonly string[] Command = ["print", "a.chain.json", "--anew"];

    private readonly TemporaryFolder _folder = new();

    public ColourTests()
    {
        using var writer = WaveWriter.Create(_folder.File("kick.wav"), new AudioFormat(48000, 1), SampleEncoding.Float64, null, 60_000);
        writer.Write(new AudioBlock([[.. Enumerable.Range(0, 60_000).Select(n => 0.5 * Math.Sin(n * 0.05) * Math.Exp(-(n % 12_000) / 4000.0))]], 0, 60_000));
        writer.Finish(60_000);
        writer.Publish();
        File.WriteAllText(_folder.File("a.chain.json"), """
            { "chain": 1, "song": { "title": "A", "code": "A", "rate_hz": 48000 }, "tracks": { "kick": "kick.wav" },
              "buses": { "k": { "from": { "kick": -6 } } }, "prints": [ { "number": 1, "name": "Kick", "bus": "k" } ] }
            """);
    }

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
        var run = ProgramRun.OfProcess(_folder.Path, Command);

        Assert.Equal(0, run.ExitCode);
        Assert.DoesNotContain('\u001b', run.Output + run.Error);
    }

    private string OnTerminal(string? noColour)
    {
        var command = $"dotnet '{Path.Combine(AppContext.BaseDirectory, "drumprint.dll")}' {string.Join(' ', Command)}";
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
        Assert.Contains("01_Kick", output, StringComparison.Ordinal);
        return output;
    }

    // Source: ECMA-48, 8.3.117: select graphic rendition with a colour of the foreground, 30 to 39 and 90 to 97.
    [GeneratedRegex("\u001b\\[(?:[0-9]+;)*(?:3[0-9]|9[0-7])[0-9;]*m")]
    private static partial Regex Colour();
}
