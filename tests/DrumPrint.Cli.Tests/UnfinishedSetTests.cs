using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Cli.Tests;

/// <summary>Whoever reads a folder of prints in which a print was stopped is told, and the command ends with 1.</summary>
public sealed class UnfinishedSetTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public UnfinishedSetTests()
    {
        Directory.CreateDirectory(_folder.File("raw"));
        using (var writer = WaveWriter.Create(_folder.File("raw/in.wav"), new AudioFormat(48000, 1), SampleEncoding.Float64, null, 4800))
        {
            writer.Write(new AudioBlock([[.. Enumerable.Range(0, 4800).Select(n => 0.5 * Math.Exp(-n / 400.0))]], 0, 4800));
            writer.Finish(4800);
            writer.Publish();
        }

        File.WriteAllText(_folder.File("a.chain.json"), """
            { "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000 },
              "tracks": { "in": "raw/in.wav" }, "buses": { "kick": { "from": { "in": -6 } } },
              "prints": [ { "number": 1, "name": "Kick", "bus": "kick" } ] }
            """);
        Assert.Equal(0, Run("print", "a.chain.json", "--quiet").ExitCode);
        File.WriteAllText(_folder.File("prints/.drumprint.journal"), "{}");
    }

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("reprint", "prints")]
    [InlineData("measure", "prints")]
    [InlineData("measure", "prints/01_Kick_Test_v1.wav")]
    [InlineData("diff", "prints", "prints")]
    [InlineData("compare", "prints/01_Kick_Test_v1.wav", "prints/90_RoughPreBus_Test_v1.wav")]
    public void It_is_told_and_the_command_ends_with_1(params string[] command)
    {
        var run = Run(command);

        Assert.Equal(1, run.ExitCode);
        Assert.Contains("holds no whole set: the last print to it was stopped while its files took their names", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_journal_that_is_none_of_ours_is_named_and_nothing_is_done_by_it()
    {
        var before = File.ReadAllBytes(_folder.File("prints/01_Kick_Test_v1.wav"));

        var run = Run("print", "a.chain.json", "--no-store");

        Assert.Equal(3, run.ExitCode);
        Assert.Contains(".drumprint.journal: this is no list of files that DrumPrint wrote", run.Error, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(_folder.File("prints/01_Kick_Test_v1.wav")));
    }

    private ProgramRun Run(params string[] arguments) => ProgramRun.Of(_folder.Path, arguments);
}
