using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Cli.Tests;

public sealed class ReprintCommandTests : IDisposable
{
    private const string Chain = """
        { "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000 },
          "tracks": { "in": "raw/in.wav" },
          "buses": { "kick": { "from": { "in": -6 }, "through": [ { "gain": { "level_db": -1 } } ] } },
          "prints": [ { "number": 1, "name": "Kick", "bus": "kick" } ] }
        """;

    private readonly TemporaryFolder _folder = new();

    public ReprintCommandTests()
    {
        Directory.CreateDirectory(_folder.File("raw"));
        WriteRaw(1);
        File.WriteAllText(_folder.File("a.chain.json"), Chain);
        Assert.Equal(0, Run("print", "a.chain.json", "--quiet").ExitCode);
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void An_identical_reprint_ends_with_0_whatever_the_raw_file_is_called()
    {
        Directory.CreateDirectory(_folder.File("takes"));
        File.Move(_folder.File("raw/in.wav"), _folder.File("takes/7.wav"));

        var run = Run("reprint", "prints/01_Kick_Test_v1.wav", "--raw", "takes");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("identical", run.Output, StringComparison.Ordinal);
        Assert.Contains("7.wav", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_changed_raw_file_ends_with_1_and_is_named()
    {
        WriteRaw(2);

        var run = Run("reprint", "prints", "--json");

        Assert.Equal(1, run.ExitCode);
        using var json = JsonDocument.Parse(run.Output);
        var kick = json.RootElement.GetProperty("prints")[0];
        Assert.Equal("differs", kick.GetProperty("outcome").GetString());
        Assert.Contains("'in' (raw/in.wav)", kick.GetProperty("cause").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_first_frame_that_differs_is_told_in_minutes_and_seconds_too()
    {
        var path = _folder.File("prints/01_Kick_Test_v1.wav");
        var bytes = File.ReadAllBytes(path);
        bytes[bytes.AsSpan().IndexOf("data"u8) + 8 + (3 * 2400)] ^= 1;
        File.WriteAllBytes(path, bytes);

        var run = Run("reprint", "prints");

        Assert.Equal(1, run.ExitCode);
        Assert.Contains("from frame 2400 on (0:00.050)", string.Join(' ', run.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    [Fact]
    public void Missing_raw_files_end_with_3_and_are_named()
    {
        File.Delete(_folder.File("raw/in.wav"));

        var run = Run("reprint", "prints/Test_v1.ticket.json", "--quiet");

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("raw/in.wav", run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Output);
    }

    private void WriteRaw(int seed)
    {
        var samples = new double[1][];
        samples[0] = [.. Enumerable.Range(0, 4800).Select(n => ((n * 7919 * seed) % 1000 / 2000.0) - 0.25)];
        using var writer = WaveWriter.Create(_folder.File("raw/in.wav"), new AudioFormat(48000, 1), SampleEncoding.Float32, null, 4800);
        writer.Write(new AudioBlock(samples, 0, 4800));
        writer.Finish(4800);
        writer.Publish();
    }

    private ProgramRun Run(params string[] arguments) => ProgramRun.Of(_folder.Path, arguments);
}
