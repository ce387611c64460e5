using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Cli.Tests;

/// <summary>A folder that came by mail may hold links: what lies elsewhere is not read by way of it.</summary>
public sealed class LinkedFolderTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly bool _hasLinks;

    public LinkedFolderTests()
    {
        Directory.CreateDirectory(_folder.File("private"));
        Directory.CreateDirectory(_folder.File("session"));
        Write("private/diary.wav");
        Write("session/kick in.wav");
        try
        {
            File.CreateSymbolicLink(_folder.File("session/snare top.wav"), _folder.File("private/diary.wav"));
            Directory.CreateSymbolicLink(_folder.File("session/raw"), _folder.File("private"));
            _hasLinks = true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // A system on which this user may make none.
        }
    }

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("begin", "session")]
    [InlineData("check", "session")]
    [InlineData("measure", "session")]
    [InlineData("measure", "session", "--hits")]
    public void A_file_behind_a_link_is_named_and_not_read(params string[] command)
    {
        if (!_hasLinks)
        {
            return;
        }

        using var held = new FileStream(_folder.File("private/diary.wav"), FileMode.Open, FileAccess.ReadWrite, FileShare.None);

        var run = ProgramRun.Of(_folder.Path, command);

        var said = (run.Output + run.Error).ReplaceLineEndings(" ");
        Assert.Contains("is a link that leads out of this folder", said, StringComparison.Ordinal);
        Assert.Contains("snare top", said, StringComparison.Ordinal);
        Assert.DoesNotContain("used by another process", said, StringComparison.Ordinal);
        Assert.NotEqual(0, run.ExitCode);
    }

    [Theory]
    [InlineData("measure", "session")]
    [InlineData("measure", "session", "--hits")]
    [InlineData("begin", "session")]
    [InlineData("check", "session")]
    public void Where_all_files_are_links_out_that_is_said_and_no_more(params string[] command)
    {
        if (!_hasLinks)
        {
            return;
        }

        File.Delete(_folder.File("session/kick in.wav"));

        var run = ProgramRun.Of(_folder.Path, command);

        Assert.InRange(run.ExitCode, 1, 3);
        Assert.Contains("is a link that leads out of this folder", (run.Output + run.Error).ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_the_user_allows_is_read_by_way_of_links()
    {
        if (!_hasLinks)
        {
            return;
        }

        Directory.CreateDirectory(_folder.File(".config/drumprint"));
        File.WriteAllText(_folder.File(".config/drumprint/settings.json"), $$"""{ "read_from": ["{{_folder.File("private").Replace('\\', '/')}}"] }""");

        var run = ProgramRun.Of(_folder.Path, "measure", "session", "--json");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("snare top.wav", run.Output, StringComparison.Ordinal);
    }

    private void Write(string name)
    {
        using var writer = WaveWriter.Create(_folder.File(name), new AudioFormat(48000, 1), SampleEncoding.Float64, null, 9600);
        writer.Write(new AudioBlock([[.. Enumerable.Range(0, 9600).Select(n => 0.5 * Math.Exp(-(n % 4800) / 400.0) * Math.Sin(n / 50.0))]], 0, 9600));
        writer.Finish(9600);
        writer.Publish();
    }
}
