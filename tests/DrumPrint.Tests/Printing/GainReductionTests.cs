using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Printing;

public sealed class GainReductionTests : IDisposable
{
    // "driven" is kept by the store, so that nothing behind it is computed again.
    private const string Body = """
        "tracks": { "a": "a.wav", "b": "b.wav" },
        "buses": {
          "crush": { "from": { "a": 0 }, "through": [ { "gate": { "range_db": -20 } }, { "compress": { "threshold_db": -30, "ratio": 10 } } ] },
          "pad": { "from": { "b": 0 }, "through": [ { "compress": { "threshold_db": -20, "ratio": 2 } } ] },
          "driven": { "from": { "crush": 0, "pad": -6 }, "through": [ { "saturate": { } } ] },
          "out": { "from": { "driven": -3, "crush": -12 }, "through": [ { "compress": { "threshold_db": -25, "ratio": 3, "key": "side" } } ] },
          "side": { "from": { "b": 0 }, "through": [ { "gate": { "range_db": -20 } } ] } },
        "prints": [ { "number": 1, "name": "Out", "bus": "out" }, { "number": 2, "name": "Plain", "bus": "side", "optional": true } ],
        "drum_bus": { "through": [ { "compress": { "ratio": 2, "threshold_db": -30 } } ] }
        """;

    private readonly TestSession _session = new();

    public GainReductionTests()
    {
        _session.Track("a.wav", Signals.Hits(24000, 1));
        _session.Track("b.wav", Signals.Hits(24000, 2));
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_print_shows_what_is_turned_down_in_every_bus_that_feeds_it_once_and_its_own_first()
    {
        var report = _session.Print(_session.Chain(Body));

        Assert.Equal(["compress", "crush gate", "crush compress", "pad compress"], Words(report.Prints[0]));
        Assert.True(report.Prints[0].GainReductions[2].LargestDb > 1);
        Assert.Equal(["gate"], Words(report.Prints[1]));
    }

    [Fact]
    public void A_rough_shows_only_what_is_done_to_the_sum()
    {
        var report = _session.Print(_session.Chain(Body));

        Assert.Empty(report.Prints.Single(p => p.Kind == PrintKind.Rough).GainReductions);
        Assert.Equal(["compress"], Words(report.Prints.Single(p => p.Kind == PrintKind.RoughWithBus)));
    }

    [Fact]
    public void Buses_behind_a_kept_signal_show_the_same_under_the_names_they_have_now()
    {
        var kept = new Kept(_session);
        var cold = kept.Print(_session.Chain(Body));

        var report = kept.PrintAsCold(_session.Chain(Body
            .Replace("\"crush\"", "\"squash\"", StringComparison.Ordinal)
            .Replace("\"name\": \"Out\"", "\"name\": \"New\"", StringComparison.Ordinal)));

        Assert.Contains(report.Profile!.Steps, s => s.Name == "driven (kept)");
        Assert.DoesNotContain(report.Profile!.Steps, s => s.Name == "pad/compress");
        Assert.Equal(["compress", "squash gate", "squash compress", "pad compress"], Words(report.Prints[0]));
        Assert.Equal(cold.Prints[0].GainReductions.Select(r => (r.MedianDb, r.LargestDb)), report.Prints[0].GainReductions.Select(r => (r.MedianDb, r.LargestDb)));
    }

    [Fact]
    public void A_ticket_names_the_bus_where_it_is_not_the_prints_own_and_one_without_the_word_is_read()
    {
        _session.Print(_session.Chain(Body));
        var path = Path.Combine(_session.Prints, "Test_v1.ticket.json");

        var recorded = Ticket.Read(path).Prints[0].GainReductions;
        Assert.Equal([null, "crush", "crush", "pad"], recorded.Select(r => r.Bus));

        var lines = File.ReadAllLines(path).ToList();
        lines.RemoveAll(l => l.Trim() is "\"bus\": \"crush\"," or "\"bus\": \"pad\",");
        File.WriteAllLines(path, lines);
        Assert.All(Ticket.Read(path).Prints[0].GainReductions, r => Assert.Null(r.Bus));
    }

    [Fact]
    public void What_is_turned_down_in_a_band_is_told_with_the_band()
    {
        var chain = Body.Replace("{ \"range_db\": -20 } }, { \"compress\"", "{ \"range_db\": -20 } }, { \"bands\": { \"in\": [ { \"low\": { \"through\": [ { \"compress\": { \"threshold_db\": -60, \"ratio\": 10 } } ] } } ] } }, { \"compress\"", StringComparison.Ordinal);

        var report = _session.Print(_session.Chain(chain));

        Assert.Equal(["compress", "crush gate", "crush bands, low compress", "crush compress", "pad compress"], Words(report.Prints[0]));
        Assert.True(report.Prints[0].GainReductions[2].LargestDb > 1);
    }

    private static string[] Words(PrintedFile print) => [.. print.GainReductions.Select(r => r.Bus is null ? r.Processor : $"{r.Bus} {r.Processor}")];
}
