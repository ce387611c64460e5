using DrumPrint.Chains;
using DrumPrint.Chains.Writing;
using DrumPrint.Diff;
using DrumPrint.Printing.Reports;
using DrumPrint.Reprinting;
using DrumPrint.Session;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Printing;

/// <summary>What <c>"off": true</c> does to a feed or a processor.</summary>
public sealed class OffTests : IDisposable
{
    private const string OffFeed = "\"room\": { \"level_db\": -9, \"off\": true }";
    private const string OffStage = "{ \"saturate\": { \"off\": true } }";

    private readonly TestSession _session = new();

    public OffTests()
    {
        _session.Track("raw/in.wav", Signals.Hits(4800, 1));
        _session.Track("raw/room.wav", Signals.Hits(4800, 2));
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void What_is_off_is_not_heard()
    {
        var off = Print(Chain(OffFeed, OffStage, OffStage));

        var without = Print(Chain("", "", ""));
        var on = Print(Chain(OffFeed.Replace("true", "false", StringComparison.Ordinal), "{ \"saturate\": { } }", "{ \"saturate\": { } }"));

        Assert.Equal(Sounds(without), Sounds(off));
        Assert.Empty(Sounds(on).Intersect(Sounds(off)));
    }

    [Fact]
    public void What_is_off_is_told_and_its_track_is_not_called_unused()
    {
        var report = Print(Chain(OffFeed, OffStage, OffStage));

        Assert.Contains("Off, and not heard: room into kick, saturate of kick and saturate of the drum bus.", report.Notes);
        Assert.Empty(report.Findings);
        Assert.DoesNotContain("room", report.Prints[0].Feeds.Select(f => f.Source));
    }

    [Fact]
    public void The_ticket_holds_what_is_off_and_the_prints_come_out_the_same_again()
    {
        Print(Chain(OffFeed, OffStage, OffStage));

        var path = Path.Combine(_session.Prints, "Test_v1.ticket.json");
        var chain = Ticket.Read(path).Chain;
        var report = Reprinter.Reprint(path, new ReprintOptions());

        Assert.Equal("room", Assert.Single(Assert.Single(chain.Buses).OffFeeds).What.Source);
        Assert.Single(chain.Buses[0].OffStages);
        Assert.Single(chain.OffDrumBus);
        Assert.True(report.IsIdentical);
    }

    [Fact]
    public void What_is_off_stays_in_its_place_in_the_canonical_text()
    {
        var text = ChainWriter.Canonical(Chain("\"room\": { \"off\": true }", "{ \"gain\": { } }, { \"saturate\": { \"off\": true } }, { \"width\": { } }", ""));

        Assert.InRange(text.IndexOf("\"saturate\"", StringComparison.Ordinal), text.IndexOf("\"gain\"", StringComparison.Ordinal), text.IndexOf("\"width\"", StringComparison.Ordinal));
        Assert.Equal(3, text.Split("\"off\":").Length);
    }

    [Fact]
    public void A_chain_in_which_all_is_on_says_nothing_of_it() =>
        Assert.Equal(
            ChainWriter.Canonical(Chain("\"room\": -9", "{ \"saturate\": { } }", "")),
            ChainWriter.Canonical(Chain("\"room\": { \"level_db\": -9, \"off\": false }", "{ \"saturate\": { \"off\": false } }", "")));

    [Fact]
    public void Diff_says_left_out_and_added()
    {
        var on = Chain("\"room\": -9", "{ \"saturate\": { } }", "{ \"gain\": { } }");
        var off = Chain(OffFeed, OffStage, "{ \"gain\": { \"off\": true } }");

        Assert.Equal(["kick: room left out (it was at −9 dB)", "kick: saturation left out", "drum bus: gain left out"], Changes(on, off).Order(StringComparer.Ordinal).OrderBy(c => c.StartsWith('d')));
        Assert.Equal(["kick: room added at −9 dB", "kick: saturation added at the front", "drum bus: gain added at the front"], Changes(off, on).Order(StringComparer.Ordinal).OrderBy(c => c.StartsWith('d')));
    }

    [Fact]
    public void A_print_does_not_change_when_what_is_off_is_taken_out_for_good()
    {
        var options = new PrintOptions { Store = new StoreOptions(Path.Combine(_session.Folder, ".drumprint")) };
        _session.Print(Chain(OffFeed, OffStage, ""), options);

        var again = _session.Print(Chain("", "", ""), options);

        Assert.All(again.Prints, p => Assert.True(p.IsUnchanged, p.FileName));
    }

    private static IEnumerable<string> Changes(Chain a, Chain b) => ChainChanges.Of(Made.Of("a", a), Made.Of("b", b)).Select(c => c.ToString());

    private static string[] Sounds(PrintReport report) => [.. report.Prints.Where(p => p.Number is 1 or 90).Select(p => p.AudioSha256)];

    private PrintReport Print(Chain chain) => _session.Print(chain);

    // Without the feed another bus takes the room, so that it is no track nobody uses.
    private Chain Chain(string feed, string stage, string drumBus) => _session.Chain($$"""
        "tracks": { "in": "raw/in.wav", "room": "raw/room.wav" },
        "buses": { "kick": { "from": { "in": -12{{(feed.Length > 0 ? ", " : "")}}{{feed}} }, "through": [ {{stage}} ] }{{(feed.Length > 0 ? "" : ", \"far\": { \"from\": { \"room\": -20 } }")}} },
        "prints": [ { "number": 1, "name": "Kick", "bus": "kick" } ],
        "drum_bus": { "through": [ {{drumBus}} ] }
        """);
}
