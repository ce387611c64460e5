using DrumPrint.Files;
using DrumPrint.Tests.Audio;

namespace DrumPrint.Tests.Files;

public sealed class LeftoversTests
{
    [Fact]
    public void What_a_killed_run_left_is_cleared_away_and_nothing_else()
    {
        using var folder = new TestFolder();
        folder.Put(TemporaryName.New(), "half"u8.ToArray());
        folder.Put(".drumprint-notes.partial", "mine"u8.ToArray());
        folder.Put(".a.wav.partial", "mine"u8.ToArray());

        Leftovers.Clear(folder.Path, FileSteps.Plain);

        Assert.Equal([".a.wav.partial", ".drumprint-notes.partial"], folder.Names);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void What_a_run_is_making_stays(bool isComplete)
    {
        using var folder = new TestFolder();
        using var file = StagedFile.Create(folder.File("a"));
        if (isComplete)
        {
            file.Complete();
        }

        Leftovers.Clear(folder.Path, FileSteps.Plain);

        Assert.True(File.Exists(file.TemporaryPath));
    }

    [Fact]
    public void A_link_of_that_name_is_neither_followed_nor_deleted()
    {
        using var folder = new TestFolder();
        using var other = new TestFolder();
        var mine = other.Put(TemporaryName.New(), "mine"u8.ToArray());
        var link = folder.File(TemporaryName.New());
        if (!Links.Make(link, mine))
        {
            return;
        }

        Leftovers.Clear(folder.Path, FileSteps.Plain);

        Assert.True(File.Exists(mine));
        Assert.NotNull(new FileInfo(link).LinkTarget);
    }
}
