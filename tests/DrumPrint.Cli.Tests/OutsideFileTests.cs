using System.Text.Json;

namespace DrumPrint.Cli.Tests;

public sealed class OutsideFileTests : IDisposable
{
    private readonly TemporaryFolder _mine = new();
    private readonly TemporaryFolder _session = new();

    public void Dispose()
    {
        _mine.Dispose();
        _session.Dispose();
    }

    [Fact]
    public void A_file_outside_the_session_is_read_with_the_option_or_the_line_that_the_refusal_shows()
    {
        // Half a second of a steep wave, 16 bits, mono.
        var samples = Enumerable.Range(0, 24000).SelectMany(n => BitConverter.GetBytes((short)(n % 100 * 100)));
        File.WriteAllBytes(_mine.File("take.wav"), [.. "RIFF"u8, .. BitConverter.GetBytes(36 + 48000), .. "WAVEfmt "u8, 16, 0, 0, 0, 1, 0, 1, 0, .. BitConverter.GetBytes(48000), .. BitConverter.GetBytes(96000), 2, 0, 16, 0, .. "data"u8, .. BitConverter.GetBytes(48000), .. samples]);
        File.WriteAllText(_session.File("a.chain.json"), $$"""
            { "chain": 1, "song": { "title": "T", "code": "T", "rate_hz": 48000 },
              "tracks": { "take": {{JsonSerializer.Serialize(_mine.File("take.wav"))}} },
              "buses": { "b": { "from": { "take": 0 } } }, "prints": [ { "number": 1, "name": "A", "bus": "b" } ] }
            """);

        var refused = ProgramRun.Of(_session.Path, "print", "a.chain.json");

        Assert.Equal(3, refused.ExitCode);
        Assert.Contains("a.chain.json:2: track 'take' names ", refused.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_session.File("prints")));
        Assert.Equal(0, ProgramRun.Of(_session.Path, "print", "a.chain.json", "--allow-outside").ExitCode);
        if (!OperatingSystem.IsLinux())
        {
            return; // only there may a test say where settings lie
        }

        var line = refused.Error[refused.Error.IndexOf("\"read_from\"", StringComparison.Ordinal)..].Split('\n')[0];
        Directory.CreateDirectory(_session.File(".config/drumprint"));
        File.WriteAllText(_session.File(".config/drumprint/settings.json"), $"{{ {line} }}");
        Assert.Equal(0, ProgramRun.Of(_session.Path, "print", "a.chain.json", "--anew").ExitCode);

        File.WriteAllText(_session.File(".config/drumprint/settings.json"), "{ \"read\": [] }");
        var wrong = ProgramRun.Of(_session.Path, "print", "a.chain.json");
        Assert.Equal(2, wrong.ExitCode);
        Assert.Contains("there is no setting 'read'", wrong.Error, StringComparison.Ordinal);
    }
}
