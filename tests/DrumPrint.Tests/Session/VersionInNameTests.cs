using DrumPrint.Session;

namespace DrumPrint.Tests.Session;

public sealed class VersionInNameTests
{
    [Theory]
    [InlineData("01_Kick_SlowFerry_v12.wav", 12)]
    [InlineData("01_Kick_SlowFerry_v1_0m49s615-1m08s077.wav", null)]
    [InlineData("01_Kick_Other_v1.wav", null)]
    [InlineData("Kick_SlowFerry_v1.wav", null)]
    [InlineData("01_Kick_SlowFerry_v.wav", null)]
    [InlineData("01_Kick_SlowFerry_v1.aiff", null)]
    public void A_print_tells_its_version(string name, int? version) => Assert.Equal(version, VersionInName.OfPrint(name, "SlowFerry"));

    [Theory]
    [InlineData("SlowFerry_v3.ticket.json", 3)]
    [InlineData("SlowFerry_v3.ticket.json.partial", null)]
    [InlineData("SlowFerry_v.ticket.json", null)]
    [InlineData("Other_v3.ticket.json", null)]
    public void A_ticket_tells_its_version(string name, int? version) => Assert.Equal(version, VersionInName.OfTicket(name, "SlowFerry"));
}
