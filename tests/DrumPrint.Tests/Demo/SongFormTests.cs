using DrumPrint.Demo.Playing;

namespace DrumPrint.Tests.Demo;

public sealed class SongFormTests
{
    [Theory]
    [InlineData("count-in", 1, 0)]
    [InlineData("intro", 3, 221538)]
    [InlineData("verse 1", 7, 664615)]
    [InlineData("pre 1", 19, 1993846)]
    [InlineData("chorus 1", 23, 2381538)]
    [InlineData("verse 2", 31, 3267692)]
    [InlineData("pre 2", 43, 4596923)]
    [InlineData("chorus 2", 47, 4984615)]
    [InlineData("bridge", 55, 5870769)]
    [InlineData("chorus 3", 63, 6774299)]
    [InlineData("outro", 79, 8529727)]
    public void Every_section_starts_where_the_session_sheet_says(string section, int bar, long frame)
    {
        Assert.Equal(bar, SongForm.Whole.Sections.Single(s => s.Name == section).FromBar);
        Assert.Equal(frame, (long)Math.Round(SongForm.Whole.SecondsAtBar(bar) * SongForm.SampleRate));
    }

    [Fact]
    public void The_song_ends_at_192_16_s()
    {
        Assert.Equal(9223678, (long)Math.Round(SongForm.Whole.SecondsAtBar(85) * SongForm.SampleRate));
    }

    [Fact]
    public void The_cut_runs_from_bar_17_to_26_in_the_same_time_as_the_song()
    {
        var start = SongForm.Whole.SecondsAtBar(17);

        for (var bar = 17; bar <= 27; bar++)
        {
            Assert.Equal(SongForm.Whole.SecondsAtBar(bar) - start, SongForm.Cut.SecondsAtBar(bar), Tolerance.Rounding * 1000);
        }

        Assert.Equal(17, SongForm.Cut.FirstBar);
        Assert.Equal(26, SongForm.Cut.LastBar);
        Assert.Equal(["verse 1", "pre 1", "chorus 1"], SongForm.Cut.Sections.Select(s => s.Name));
    }
}
