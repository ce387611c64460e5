using System.Diagnostics;
using DrumPrint.Chains;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Files;
using DrumPrint.Live;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Live;

/// <summary>Work beside the sound rests while that is short, but not for ever, and ends when nobody wants it.</summary>
public sealed class GivesWayTests : IDisposable
{
    private const int Block = TestSession.Rate / 100;

    // Far less than a rest that was not ended, far more than a machine under load takes to come back.
    private static readonly TimeSpan AtOnce = TimeSpan.FromSeconds(1);

    private readonly TestSession _session = new();

    public GivesWayTests()
    {
        var noise = new CounterNoise(5);
        _session.Track("raw/a.wav", [.. Enumerable.Range(0, 6 * TestSession.Rate).Select(n => 0.3 * noise.Bipolar(n))]);
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void It_rests_as_long_as_it_may_and_no_longer()
    {
        var clock = Stopwatch.StartNew();
        var way = new GivesWay(static () => true) { LongestRest = TimeSpan.FromSeconds(0.3) };

        way.Rest();
        way.Rest();

        Assert.InRange(clock.Elapsed, TimeSpan.FromSeconds(0.29), AtOnce);
    }

    [Fact]
    public void It_does_not_rest_where_nothing_is_short_or_nobody_wants_it()
    {
        var clock = Stopwatch.StartNew();

        new GivesWay(static () => false) { LongestRest = TimeSpan.FromSeconds(5) }.Rest();
        new GivesWay(static () => true) { LongestRest = TimeSpan.FromSeconds(5), IsOff = static () => true }.Rest();

        Assert.InRange(clock.Elapsed, TimeSpan.Zero, AtOnce);
    }

    [Fact]
    public void A_change_rests_a_moment_while_the_sound_is_short_and_comes_all_the_same()
    {
        var engine = new LiveEngine(Chain(3), 0) { IsShort = static () => true };
        engine.Seek(3 * TestSession.Rate);
        var clock = Stopwatch.StartNew();

        engine.Change(Chain(12));

        Assert.InRange(clock.Elapsed, TimeSpan.FromSeconds(0.14), TimeSpan.FromSeconds(2));
    }

    [Fact]
    public void A_graph_that_nobody_wants_is_left_unfinished()
    {
        var graph = LiveGraph.Build(LiveSession.Of(Chain(3), ReadPolicy.Default, null), new HeardSettings(new Strips(), false, 0), null, 300, new BlockPool(Block));

        Assert.False(graph.PreRoll(300, new GivesWay(static () => false) { IsOff = static () => true }));
        Assert.True(graph.PreRoll(300, new GivesWay(static () => false)));
    }

    [Fact]
    public async Task What_is_made_for_going_back_ends_when_a_change_begins()
    {
        var isShort = false;
        var engine = new LiveEngine(Chain(3), 0) { IsShort = () => Volatile.Read(ref isShort) };
        engine.Seek(3 * TestSession.Rate);
        engine.Repeat(3 * TestSession.Rate, 4 * TestSession.Rate);
        engine.Change(Chain(4));
        Volatile.Write(ref isShort, true);
        var clock = Stopwatch.StartNew();

        var again = SideThread.Run(engine.PrepareAgain);
        Thread.Sleep(100);
        engine.Change(Chain(12));
        await again;

        Assert.InRange(clock.Elapsed, TimeSpan.Zero, TimeSpan.FromSeconds(1.5));
    }

    private Chain Chain(double ratio) => _session.Chain(FormattableString.Invariant($$"""
        "tracks": { "a": "raw/a.wav" },
        "buses": { "all": { "from": { "a": -3 } }, "hard": { "from": { "all": 0 }, "through": [ { "compress": { "threshold_db": -30, "ratio": {{ratio}}, "attack_ms": 2, "release_ms": 40 } } ] } },
        "prints": [ { "number": 1, "name": "All", "bus": "all" }, { "number": 2, "name": "Hard", "bus": "hard" } ]
        """));
}
