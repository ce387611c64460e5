using DrumPrint.Printing.Reports;
using DrumPrint.Reprinting;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

/// <summary>Where files end that a delay or a tail puts a little past a whole second.</summary>
public sealed class SessionLengthTests : IDisposable
{
    private const int Rate = TestSession.Rate;

    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    // The raw files sound to their last frame.
    [Theory]
    [InlineData(2 * Rate, "\"delay_ms\": 1.1", 2)]
    [InlineData(2 * Rate, "\"delay_ms\": 50", 2)]
    [InlineData(2 * Rate, "\"delay_ms\": 51", 3)]
    [InlineData((2 * Rate) + 1, "\"delay_ms\": 0", 3)]
    [InlineData(2 * Rate, "\"delay_ms\": 0", 2)]
    public void A_delay_of_less_than_50_ms_begins_no_other_second_and_no_raw_file_is_cut(int frames, string delay, int seconds)
    {
        var report = Print(frames, delay);

        Assert.Equal(seconds * Rate, report.Frames);
    }

    [Fact]
    public void What_is_left_off_is_told_and_the_same_print_comes_out_again()
    {
        var report = Print(2 * Rate, "\"delay_ms\": 1.1");

        Assert.Equal("All files 2 s: the raw tracks end at 2.002 s, and no tail rings longer; what lies past 2 s is left off, for less than 50 ms begin no other second.", report.Notes[0]);
        Assert.True(Reprinter.Reprint(Path.Combine(_session.Prints, "Test_v1.ticket.json"), new ReprintOptions()).IsIdentical);
    }

    [Theory]
    [InlineData(0, 2)]
    [InlineData(0.02, 3)]
    [InlineData(1, 3)]
    public void A_tail_in_seconds_is_kept_whole(double tailS, int seconds)
    {
        var report = Print(2 * Rate, "\"delay_ms\": 1.1", FormattableString.Invariant($", \"output\": {{ \"tail_s\": {tailS} }}"));

        Assert.Equal(seconds * Rate, report.Frames);
    }

    [Fact]
    public void A_tail_that_rings_longer_begins_another_second()
    {
        _session.Track("raw/room.wav", [.. Enumerable.Range(0, Rate / 4).Select(n => Math.Exp(-n / 1200.0))]);

        var report = Print(2 * Rate, "\"delay_ms\": 0", ", \"impulses\": { \"room\": \"raw/room.wav\" }", ", \"through\": [ { \"convolve\": { \"impulse\": \"room\" } } ]");

        Assert.Equal(3 * Rate, report.Frames);
    }

    private PrintReport Print(int frames, string delay, string rest = "", string through = "")
    {
        _session.Track("raw/in.wav", Signals.Hits(frames, 1));
        _session.Track("raw/out.wav", [.. Enumerable.Range(0, frames).Select(n => 0.1 * Math.Sin(n * 0.05))]);
        return _session.Print(_session.Chain($$"""
            "tracks": { "in": { "file": "raw/in.wav", {{delay}} }, "out": "raw/out.wav" },
            "buses": { "kick": { "from": { "in": -12, "out": -20 }{{through}} } },
            "prints": [ { "number": 1, "name": "Kick", "bus": "kick" } ]{{rest}}
            """));
    }
}
