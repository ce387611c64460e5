using DrumPrint.Chains;
using DrumPrint.Dsp.Processors;
using DrumPrint.Live;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Live;

/// <summary>Numbers that are set by a goal, as the bench hears them.</summary>
public sealed class LiveGoalTests : IDisposable
{
    private const string Body = """
        "tracks": { "a": "raw/a.wav" },
        "buses": { "one": { "from": { "a": -6 }, "through": [ { "compress": { "ratio": 4, "threshold_db": { "for_reduction_db": 6, "on": "loud_hits" } } } ] } },
        "prints": [ { "number": 1, "name": "One", "bus": "one" } ]
        """;

    private readonly TestSession _session = new();

    public LiveGoalTests() => _session.Track("raw/a.wav", Signals.Hits(200_000, 1));

    public void Dispose() => _session.Dispose();

    [Fact]
    public void The_number_is_the_one_that_a_print_finds()
    {
        var chain = _session.Chain(Body);
        _session.Print(chain);

        var heard = new LiveEngine(chain, 0).Chain;

        Assert.Equal(Threshold(Ticket.Read(Path.Combine(_session.Prints, "Test_v1.ticket.json")).Chain), Threshold(heard));
    }

    [Fact]
    public void It_stands_while_something_else_is_changed_and_moves_with_its_goal()
    {
        var engine = new LiveEngine(_session.Chain(Body), 0);
        var first = Threshold(engine.Chain);

        engine.Change(_session.Chain(Body.Replace("\"a\": -6", "\"a\": -9", StringComparison.Ordinal)));
        var same = Threshold(engine.Chain);
        engine.Change(_session.Chain(Body.Replace("\"for_reduction_db\": 6", "\"for_reduction_db\": 3", StringComparison.Ordinal)));

        Assert.Equal(first, same);
        Assert.True(Threshold(engine.Chain) > first);
    }

    private static double Threshold(Chain chain) => chain.Buses[0].Stages[0].Settings[Compress.Threshold];
}
