using DrumPrint.Demo.Playing;

namespace DrumPrint.Tests.Demo;

public sealed class ScoreTests
{
    private static readonly IReadOnlyList<PlayedHit> Whole = Score.Of(SongForm.Whole);

    [Theory]
    [InlineData(nameof(Stroke.Kick), 306)]
    [InlineData(nameof(Stroke.Backbeat), 158)]
    [InlineData(nameof(Stroke.Ghost), 96)]
    [InlineData(nameof(Stroke.RimClick), 32)]
    [InlineData(nameof(Stroke.Sticks), 4)]
    public void The_song_has_as_many_hits_as_the_session_sheet_says(string stroke, int count)
    {
        Assert.Equal(count, Whole.Count(h => h.Stroke.ToString() == stroke));
    }

    [Fact]
    public void Backbeats_stay_within_4_dB_and_ghosts_18_to_28_dB_below_full()
    {
        var backbeats = Whole.Where(h => h.Stroke == Stroke.Backbeat).Select(h => h.LevelDb).ToArray();
        var ghosts = Whole.Where(h => h.Stroke == Stroke.Ghost).Select(h => h.LevelDb).ToArray();

        Assert.InRange(backbeats.Max() - backbeats.Min(), 3, 4);
        Assert.All(ghosts, g => Assert.InRange(g, -28, -18));
    }

    [Theory]
    [InlineData(nameof(Stroke.Backbeat), 6)]
    [InlineData(nameof(Stroke.HatClosed), -2)]
    [InlineData(nameof(Stroke.Kick), 0)]
    public void Each_hand_has_its_own_feel(string stroke, double meanMs)
    {
        var slips = Whole.Where(h => h.Stroke.ToString() == stroke).Select(SlipMs).ToArray();
        var mean = slips.Average();
        var sigma = Math.Sqrt(slips.Average(s => (s - mean) * (s - mean)));

        // Three standard errors of a mean of 158 hits or more, and of a deviation.
        Assert.Equal(meanMs, mean, 1.0);
        Assert.Equal(4, sigma, 0.8);
    }

    [Fact]
    public void A_bar_is_played_the_same_in_every_excerpt()
    {
        var cut = Score.Of(SongForm.Cut);
        var start = (long)Math.Round(SongForm.Whole.SecondsAtBar(17) * SongForm.SampleRate);

        var same = cut.Where(h => h.Frame > 0).Count(h => Whole.Any(w => w.Stroke == h.Stroke && w.Take == h.Take && w.LevelDb == h.LevelDb && Math.Abs(w.Frame - start - h.Frame) <= 1));

        Assert.InRange(same, cut.Count - 3, cut.Count);
        Assert.Equal(42, cut.Count(h => h.Stroke == Stroke.Kick));
    }

    [Fact]
    public void Hats_are_choked_by_the_next_stroke_on_them()
    {
        var hats = Whole.Where(h => h.Stroke is Stroke.HatClosed or Stroke.HatOpen or Stroke.HatFoot).ToArray();

        for (var i = 0; i + 1 < hats.Length; i++)
        {
            Assert.Equal(hats[i + 1].Frame, hats[i].StopFrame);
        }
    }

    // Against the nearest sixteenth of the bar it falls in.
    private static double SlipMs(PlayedHit hit)
    {
        var seconds = hit.Frame / (double)SongForm.SampleRate;
        var bar = Math.Floor(SongForm.Whole.BarAtSeconds(seconds + 0.020));
        var sixteenth = SongForm.Whole.StretchAt(bar).SecondsPerBeat / 4;
        var place = (seconds - SongForm.Whole.SecondsAtBar(bar)) / sixteenth;
        return (place - Math.Round(place)) * sixteenth * 1000;
    }
}
