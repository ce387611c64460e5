namespace DrumPrint.Cli.Tests;

/// <summary>A double click, and a file dropped on the program: Windows opens a window that closes with it.</summary>
public sealed class OwnWindowTests : IDisposable
{
    private const string Key = "Press a key to close this window.";

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_double_click_shows_what_to_do_next_and_waits_for_a_key()
    {
        var (run, waited) = Run();

        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Contains("drumprint begin FOLDER", run.Output, StringComparison.Ordinal);
        Assert.Contains(Key, run.Output, StringComparison.Ordinal);
        Assert.Equal(1, waited);
    }

    [Fact]
    public void What_is_dropped_on_the_program_is_answered_with_its_command_and_the_window_stays()
    {
        Directory.CreateDirectory(_folder.File("takes"));
        File.WriteAllText(_folder.File("song.chain.json"), "{}");
        File.WriteAllText(_folder.File("kick.wav"), "");

        Assert.Contains($"drumprint begin \"{_folder.File("takes")}\"", Dropped("takes"), StringComparison.Ordinal);
        Assert.Contains($"drumprint print \"{_folder.File("song.chain.json")}\"", Dropped("song.chain.json"), StringComparison.Ordinal);
        Assert.Contains($"drumprint measure \"{_folder.File("kick.wav")}\"", Dropped("kick.wav"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("help")]
    [InlineData("prnt")]
    [InlineData("print", "nowhere.chain.json")]
    public void A_command_in_a_window_of_its_own_waits_for_nobody(params string[] arguments)
    {
        // A task that the system starts at night has a window of its own too.
        var (run, waited) = Run(arguments);

        Assert.Equal(0, waited);
        Assert.DoesNotContain(Key, run.Output, StringComparison.Ordinal);
    }

    private string Dropped(string name)
    {
        var (run, waited) = Run(_folder.File(name));

        Assert.Equal((2, 1), (run.ExitCode, waited));
        return run.Error;
    }

    private (ProgramRun Run, int Waited) Run(params string[] arguments)
    {
        var waited = 0;
        return (ProgramRun.InOwnWindow(_folder.Path, () => waited++, arguments), waited);
    }
}
