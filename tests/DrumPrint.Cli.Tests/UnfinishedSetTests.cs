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
        Stop();

        var run = Run(command);

        Assert.Equal(1, run.ExitCode);
        Assert.Contains("holds no whole set: the last print to it was stopped while its files took their names", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_journal_that_is_none_of_ours_is_named_and_nothing_is_done_by_it()
    {
        Stop();
        var before = File.ReadAllBytes(_folder.File("prints/01_Kick_Test_v1.wav"));

        var run = Run("print", "a.chain.json", "--no-store");

        Assert.Equal(3, run.ExitCode);
        Assert.Contains(".drumprint.journal: this is no list of files that your DrumPrint wrote on this machine", run.Error, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(_folder.File("prints/01_Kick_Test_v1.wav")));
    }

    [Theory]
    [InlineData("reprint", "prints")]
    [InlineData("reprint", "prints/Test_v1.ticket.json")]
    [InlineData("measure", "prints")]
    [InlineData("diff", "prints", "prints")]
    [InlineData("compare", "prints", "prints")]
    public void Prints_that_a_ticket_names_and_that_are_gone_are_told_and_the_command_ends_with_1(params string[] command)
    {
        Assert.Equal(0, Run(command).ExitCode);
        File.Delete(_folder.File("prints/01_Kick_Test_v1.wav"));

        var run = Run(command);

        Assert.Equal(1, run.ExitCode);
        Assert.Contains("prints holds no whole set: Test_v1.ticket.json names 1 print that is not there, 01_Kick_Test_v1.wav. Print again to have it back.", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(false, "the last print to it was stopped")]
    [InlineData(true, "Test_v1.ticket.json names 1 print that is not there, 01_Kick_Test_v1.wav. Print first: drumprint print a.chain.json")]
    public void Nothing_is_delivered_of_it(bool isGone, string why)
    {
        if (isGone)
        {
            File.Delete(_folder.File("prints/01_Kick_Test_v1.wav"));
        }
        else
        {
            Stop();
        }

        var run = Run("deliver", "a.chain.json", "--to", "out");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("holds no whole set: ", run.Error, StringComparison.Ordinal);
        Assert.Contains(why, run.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_folder.File("out")));
    }

    [Fact]
    public void A_ticket_that_was_kept_by_itself_is_no_set()
    {
        Directory.CreateDirectory(_folder.File("kept"));
        File.Copy(_folder.File("prints/Test_v1.ticket.json"), _folder.File("kept/Test_v1.ticket.json"));

        var run = Run("diff", "kept/Test_v1.ticket.json", "prints");

        Assert.Equal(0, run.ExitCode);
        Assert.Equal("", run.Error);
    }

    private void Stop() => File.WriteAllText(_folder.File("prints/.drumprint.journal"), "{}");

    private ProgramRun Run(params string[] arguments) => ProgramRun.Of(_folder.Path, arguments);
}
