using DrumPrint.Live;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Live;

public sealed class StageResponseTests
{
    [Theory]
    [InlineData("", "")]
    [InlineData(", \"on\": \"right\"", "")]
    [InlineData(", \"on\": \"side\"", "")]
    [InlineData("", ", \"phase\": \"linear\"")]
    public void A_bell_is_drawn_as_high_as_it_is_set_whatever_part_of_the_signal_it_is_for(string on, string phase)
    {
        using var session = new TestSession();
        session.Track("a.wav", [0.5], [0.5]);
        var chain = session.Chain($$"""
            "tracks": { "a": "a.wav" },
            "buses": { "bus": { "from": { "a": 0 }, "through": [ { "eq": { "bands": [ { "bell": { "freq_hz": 1000, "gain_db": 6{{on}} } } ]{{phase}} } } ] } },
            "prints": [ { "number": 1, "name": "Bus", "bus": "bus" } ]
            """);

        var response = StageResponse.Of(chain.Buses[0].Stages[0], TestSession.Rate)!;

        Assert.Equal(6, response.Max(), 0.05);
        Assert.Equal(0, response[0], 0.05);
    }
}
