using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

public sealed class ChainFindingTests : IDisposable
{
    private readonly TestSession _session = new();

    public ChainFindingTests()
    {
        _session.Track("raw/a.wav", Signals.Hits(4800, 1));
        _session.Track("raw/b.wav", Signals.Hits(4800, 2));
    }

    public void Dispose() => _session.Dispose();

    [Theory]
    [InlineData("\"delay_ms\": 900", "Track 'a' is delayed by 900 ms, what sound takes over 309 m; microphones of one kit are not 34 m apart (100 ms). Look at the decimal point. If it is an effect, delay the feed instead.")]
    [InlineData("\"delay_frames\": 4801", "Track 'a' is delayed by 100.02 ms, what sound takes over 34 m; microphones of one kit are not 34 m apart (100 ms). Look at the decimal point. If it is an effect, delay the feed instead.")]
    [InlineData("\"delay_m\": 40", "Track 'a' is delayed by 116.54 ms, what sound takes over 40 m; microphones of one kit are not 34 m apart (100 ms). Look at the decimal point. If it is an effect, delay the feed instead.")]
    [InlineData("\"delay_ms\": 100", null)]
    [InlineData("\"delay_ms\": 9.00", null)]
    [InlineData("\"delay_m\": 30", null)]
    [InlineData("\"level_db\": 0", null, "{ \"level_db\": 0, \"delay_ms\": 900 }")]
    public void A_track_delay_that_no_distance_explains_is_a_finding(string delay, string? finding, string feed = "0")
    {
        var findings = Findings($$"""
            "tracks": { "a": { "file": "raw/a.wav", {{delay}} } }, "buses": { "all": { "from": { "a": {{feed}} } } }
            """);

        Assert.Equal(finding is null ? [] : [finding], findings);
    }

    [Fact]
    public void One_raw_file_under_two_track_names_is_a_finding()
    {
        var findings = Findings("""
            "tracks": { "a": "raw/a.wav", "b": "raw/b.wav", "a again": "raw/../raw/a.wav" },
            "buses": { "all": { "from": { "a": -6, "b": -6, "a again": -6 } } }
            """);

        Assert.Equal("Tracks 'a' and 'a again' are the same file, raw/a.wav. If that is meant, feed one track to several buses instead.", Assert.Single(findings));
    }

    [Fact]
    public void A_track_that_no_bus_uses_is_a_finding()
    {
        var findings = Findings("""
            "tracks": { "a": "raw/a.wav", "b": "raw/b.wav" },
            "buses": { "all": { "from": { "a": -6 } } }
            """);

        Assert.Equal("Track 'b' (raw/b.wav) is used by no bus, so nothing of it is heard. Feed it to a bus, or take it out of the chain.", Assert.Single(findings));
    }

    [Fact]
    public void A_track_that_is_only_a_key_is_used()
    {
        var findings = Findings("""
            "tracks": { "a": "raw/a.wav", "b": "raw/b.wav" },
            "buses": { "all": { "from": { "a": -6 }, "through": [ { "compress": { "key": "b" } } ] } }
            """);

        Assert.Empty(findings);
    }

    [Theory]
    [InlineData(11900, true)]
    [InlineData(12100, false)]
    public void A_track_not_half_as_long_as_the_longest_is_a_finding(int frames, bool isFound)
    {
        _session.Track("raw/a.wav", Signals.Hits(24000, 1));
        _session.Track("raw/b.wav", Signals.Hits(frames, 2));

        var findings = Findings("""
            "tracks": { "a": "raw/a.wav", "b": "raw/b.wav" },
            "buses": { "all": { "from": { "a": -6, "b": -6 } } }
            """);

        Assert.Equal(
            isFound ? ["Track 'b' (raw/b.wav) ends after 0.2 s, the longest track after 0.5 s. If it was cut short, bring it from the song's start to its end."] : [],
            findings);
    }

    [Fact]
    public void A_ride_that_begins_after_the_song_is_a_finding_and_an_earlier_one_is_not()
    {
        var findings = Findings("""
            "tracks": { "a": "raw/a.wav", "b": "raw/b.wav" },
            "buses": { "all": { "from": {
              "a": { "level_db": -6, "ride": [ { "from_s": 0.05, "to_s": 9, "db": 1 } ] },
              "b": { "level_db": -6, "ride": [ { "from_s": 0.1, "to_s": 9, "db": 1 } ] } } } }
            """);

        Assert.Equal("Bus 'all': the ride of 'b' that begins at 0.1 s is never heard, for the sound ends at 0.1 s.", Assert.Single(findings));
    }

    [Fact]
    public void A_ride_over_the_tail_of_a_bus_is_no_finding()
    {
        var findings = Findings("""
            "tracks": { "a": "raw/a.wav", "b": "raw/b.wav" },
            "buses": {
              "dry": { "from": { "a": -6, "b": -6 } },
              "all": { "from": { "dry": { "level_db": -6, "ride": [ { "from_s": 0.2, "to_s": 0.3, "db": 1 } ] } } } },
            "output": { "tail_s": 0.5 }
            """);

        Assert.Empty(findings);
    }

    private IReadOnlyList<string> Findings(string body) =>
        _session.Print(_session.Chain(body + """, "prints": [ { "number": 1, "name": "All", "bus": "all" } ]""")).Findings;
}
