using DrumPrint.Files;
using DrumPrint.Tests.Audio;

namespace DrumPrint.Tests.Files;

public sealed class StagedFileTests
{
    [Fact]
    public void Its_name_is_of_a_pattern_of_our_own_and_never_twice_the_same()
    {
        var names = Enumerable.Range(0, 1000).Select(_ => TemporaryName.New()).ToHashSet();

        Assert.Equal(1000, names.Count);
        Assert.All(names, name => Assert.True(TemporaryName.Is(name), name));
    }

    [Theory]
    [InlineData(".drumprint.partial")]
    [InlineData(".drumprint-0123456789abcdef01234567.partial.wav")]
    [InlineData(".drumprint-0123456789abcdef0123456.partial")]
    [InlineData(".drumprint-0123456789ABCDEF01234567.partial")]
    [InlineData("my.drumprint-0123456789abcdef01234567.partial")]
    [InlineData(".01_Kick.wav.partial")]
    public void A_name_of_another_pattern_is_none_of_ours(string name) => Assert.False(TemporaryName.Is(name));

    [Fact]
    public void It_lies_in_the_folder_of_its_target_until_it_is_committed_whole()
    {
        using var folder = new TestFolder();
        folder.Put("a.txt", "old"u8.ToArray());
        using var file = StagedFile.Create(folder.File("a.txt"));
        file.Append("ne"u8);
        file.Append("w"u8);

        Assert.Throws<InvalidOperationException>(() => file.Commit());
        file.Complete();
        Assert.Equal("old", File.ReadAllText(folder.File("a.txt")));
        Assert.Equal("new", File.ReadAllText(file.TemporaryPath));
        file.Commit();

        Assert.Equal(["a.txt"], folder.Names);
        Assert.Equal("new", File.ReadAllText(folder.File("a.txt")));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Disposed_without_its_name_it_leaves_nothing(bool isComplete)
    {
        using var folder = new TestFolder();
        using (var file = StagedFile.Create(folder.File("a.txt")))
        {
            file.Append("half"u8);
            if (isComplete)
            {
                file.Complete();
            }
        }

        Assert.Empty(folder.Names);
    }

    [Fact]
    public void It_takes_no_place_that_it_may_not_replace()
    {
        using var folder = new TestFolder();
        folder.Put("a.txt", "old"u8.ToArray());

        Assert.ThrowsAny<IOException>(() => StagedFile.Write(folder.File("a.txt"), "new", replaces: false));

        Assert.Equal(["a.txt"], folder.Names);
        Assert.Equal("old", File.ReadAllText(folder.File("a.txt")));
    }

    [Fact]
    public void A_link_under_its_own_name_is_replaced_and_what_it_leads_to_stays()
    {
        using var folder = new TestFolder();
        var mine = folder.Put("mine.txt", "mine"u8.ToArray());
        if (!Links.Make(folder.File("a.txt"), mine))
        {
            return;
        }

        StagedFile.Write(folder.File("a.txt"), "new");

        Assert.Equal("mine", File.ReadAllText(mine));
        Assert.Null(new FileInfo(folder.File("a.txt")).LinkTarget);
        Assert.Equal("new", File.ReadAllText(folder.File("a.txt")));
    }

    [Fact]
    public void What_is_written_as_a_stream_stays_open_until_it_is_complete()
    {
        using var folder = new TestFolder();
        using var file = StagedFile.Create(folder.File("a.txt"));
        using (var writer = new StreamWriter(file.OpenStream()))
        {
            writer.Write("text");
        }

        file.Complete();
        file.Commit();

        Assert.Equal("text", File.ReadAllText(folder.File("a.txt")));
    }

    [Fact]
    public void A_set_is_staged_whole_before_the_first_of_it_takes_its_name()
    {
        using var folder = new TestFolder();
        var set = new[] { "a", "b", "c" }.Select(name => StagedFile.Create(folder.File(name))).ToList();
        set.ForEach(f => f.Complete());

        Assert.All(folder.Names, name => Assert.True(TemporaryName.Is(name)));
        set.ForEach(f => f.Commit());
        FolderEntries.Flush(folder.Path);
        set.ForEach(f => f.Dispose());

        Assert.Equal(["a", "b", "c"], folder.Names);
    }
}
