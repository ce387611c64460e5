using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Cli.Tests;

public sealed class CarryCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public CarryCommandTests()
    {
        Write("One/kick in.wav");
        Write("One/snare top.wav");
        Write("Two/Kick In.wav");
        File.WriteAllText(Path.Combine(_folder.Path, "One", "One.chain.json"), """
            { "chain": 1, "song": { "title": "One", "code": "One", "rate_hz": 48000 },
              "tracks": { "kick in": "kick in.wav", "snare top": "snare top.wav" },
              "buses": { "kit": { "from": { "kick in": 0, "snare top": 0 } } }, "prints": [ { "number": 1, "name": "Kit", "bus": "kit" } ] }
            """);
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void What_is_missing_is_told_with_exit_code_1_and_by_its_documented_keys()
    {
        var run = Run("carry", "One", "--to", "Two", "--json");

        Assert.Equal(1, run.ExitCode);
        using var json = JsonDocument.Parse(run.Output);
        Assert.Equal(["engine", "chain", "tracks", "unused", "moved", "left_behind", "notes"], json.RootElement.EnumerateObject().Select(p => p.Name));
        Assert.Equal(["Kick In.wav", null], json.RootElement.GetProperty("tracks").EnumerateArray().Select(t => t.GetProperty("now").GetString()));
        Assert.True(File.Exists(Path.Combine(_folder.Path, "Two", "Two.chain.json")));
    }

    [Fact]
    public void With_every_take_it_ends_with_0_and_a_second_time_replaces_nothing()
    {
        Write("Two/Snare Top.wav");

        var run = Run("carry", "One", "--to", "Two");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("To hear it: drumprint print", run.Output, StringComparison.Ordinal);
        var again = Run("carry", "One", "--to", "Two");
        Assert.NotEqual(0, again.ExitCode);
        Assert.Contains("carry replaces nothing", again.Error, StringComparison.Ordinal);
    }

    private ProgramRun Run(params string[] arguments) => ProgramRun.Of(_folder.Path, arguments);

    private void Write(string file)
    {
        var path = Path.Combine(_folder.Path, file);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        using var writer = WaveWriter.Create(path, new AudioFormat(48000, 1), SampleEncoding.Pcm24, null, 48000);
        writer.Write(new AudioBlock([new double[48000]], 0, 48000));
        writer.Finish(48000);
        writer.Publish();
    }
}
