using DrumPrint.Demo.Playing;

namespace DrumPrint.Tests.Demo;

/// <summary>Times and polarities found in the written tracks, against the straight lines of the session sheet at
/// 343.2 m/s.</summary>
[Collection(DemoGroup.Name)]
public sealed class DemoDelayTests(DemoFixture demo)
{
    [Theory]
    [InlineData("kick in to out", 1, 2, nameof(Stroke.Kick), 52.8, 0, 150)]
    [InlineData("kick out to overhead left", 2, 11, nameof(Stroke.Kick), 147.7, 60, 80)]
    [InlineData("kick out to overhead right", 2, 12, nameof(Stroke.Kick), 116.8, 60, 80)]
    [InlineData("snare top to overhead left", 4, 11, nameof(Stroke.Backbeat), 127.1, 10, 110)]
    [InlineData("snare top to overhead right", 4, 12, nameof(Stroke.Backbeat), 127.6, 10, 110)]
    [InlineData("snare top to knee", 4, 14, nameof(Stroke.Backbeat), 24.5, 10, 110)]
    [InlineData("snare top to near room left", 4, 15, nameof(Stroke.Backbeat), 326.6, 10, 90)]
    [InlineData("snare top to near room right", 4, 16, nameof(Stroke.Backbeat), 332.7, 10, 90)]
    [InlineData("snare top to far room left", 4, 17, nameof(Stroke.Backbeat), 661.6, 10, 70)]
    [InlineData("snare top to far room right", 4, 18, nameof(Stroke.Backbeat), 661.6, 10, 70)]
    [InlineData("snare top to hall", 4, 19, nameof(Stroke.Backbeat), 831.5, 10, 190)]
    [InlineData("snare top to front", 4, 13, nameof(Stroke.Backbeat), 205.9, 10, 90)]
    [InlineData("hat to snare top", 7, 4, nameof(Stroke.HatClosed), 31.6, 20, 100)]
    public void Direct_sound_arrives_as_late_as_its_path_is_long(string pair, int first, int second, string stroke, double frames, int from, int length)
    {
        var (lag, _) = Correlation.Of(demo.Track(first), demo.Track(second), Onsets(stroke), from, length, 1000, 9000, frames);

        Assert.True(Math.Abs(lag - frames) <= DemoTolerance.LagFrames, $"{pair}: {lag:0.00} frames, {frames} expected");
    }

    // Half a head's width from the batter head, on the air that the vent presses out.
    [Fact]
    public void The_vent_hears_the_snare_the_same_way_up_as_the_microphone_above_it()
    {
        var (lag, height) = Correlation.Of(demo.Track(4), demo.Track(5), [.. Onsets(nameof(Stroke.Backbeat)).Take(10)], 0, 600, 150, 900, 16.5);

        Assert.True(height > 0.6, $"correlation {height:0.00}");
        Assert.True(Math.Abs(lag - 16.5) <= DemoTolerance.VentLagFrames, $"{lag:0.00} frames, 16.5 expected");
    }

    [Theory]
    [InlineData("kick out and sub", 2, 3, nameof(Stroke.Kick), 7.7, 0, 12000, 40, 90)]
    [InlineData("snare top and bottom", 4, 6, nameof(Stroke.Backbeat), 17.4, 0, 600, 120, 600)]
    [InlineData("floor tom and under", 9, 10, nameof(Stroke.Floor), 40.1, 0, 2400, 60, 300)]
    public void Microphones_on_the_far_side_hear_the_drum_upside_down(string pair, int first, int second, string stroke, double frames, int from, int length, double lowHz, double highHz)
    {
        var (lag, height) = Correlation.Of(demo.Track(first), demo.Track(second), [.. Onsets(stroke).Take(10)], from, length, lowHz, highHz, frames);

        Assert.True(height < -0.8, $"{pair}: correlation {height:0.00}");
        Assert.True(Math.Abs(lag - frames) <= DemoTolerance.LowLagFrames, $"{pair}: {lag:0.00} frames, {frames} expected");
    }

    [Fact]
    public void Overheads_agree_on_the_snare_and_disagree_on_the_kick()
    {
        var (snare, _) = Correlation.Of(demo.Track(11), demo.Track(12), Onsets(nameof(Stroke.Backbeat)), 140, 110, 1000, 9000, 0);
        var (kick, _) = Correlation.Of(demo.Track(12), demo.Track(11), Onsets(nameof(Stroke.Kick)), 180, 80, 1000, 9000, 30.9);

        Assert.Equal(0.5, snare, DemoTolerance.LagFrames);
        Assert.Equal(30.9, kick, DemoTolerance.LagFrames);
    }

    private long[] Onsets(string stroke) => demo.Onsets(Enum.Parse<Stroke>(stroke));
}
