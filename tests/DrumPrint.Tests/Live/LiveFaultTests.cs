using System.Diagnostics;
using DrumPrint.Chains;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Processors;
using DrumPrint.Live;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Live;

/// <summary>What plays when something that was asked of it cannot be, or has to wait.</summary>
public sealed class LiveFaultTests : IDisposable
{
    private const int Block = TestSession.Rate / 100;

    private static readonly TimeSpan AtOnce = TimeSpan.FromSeconds(0.5);

    private readonly TestSession _session = new();

    public LiveFaultTests()
    {
        var noise = new CounterNoise(5);
        _session.Track("raw/a.wav", [.. Enumerable.Range(0, 6 * TestSession.Rate).Select(n => 0.3 * noise.Bipolar(n))]);
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_pair_of_which_the_second_cannot_sound_leaves_what_sounded()
    {
        var (heard, first, broken) = (Chain(3), Chain(5), Chain(8, ", \"topology\": \"feedback\", \"times\": \"by_crest\""));
        var engine = new LiveEngine(heard, 0);

        Assert.ThrowsAny<DrumPrintException>(() => engine.Pair(first, broken, 1, 1));

        Assert.Equal(3, engine.Chain.Buses.First(b => b.Name == "hard").Stages[0].Settings[Compress.Ratio]);
    }

    [Fact]
    public void A_stretch_that_begins_before_the_song_is_repeated_from_its_start()
    {
        var engine = new LiveEngine(Chain(3), 0);
        engine.Repeat(-TestSession.Rate, TestSession.Rate);
        engine.PrepareAgain();
        var stereo = new float[2 * Block];

        for (var n = 0; n < 250; n++)
        {
            engine.PrepareAgain();
            Assert.InRange(engine.Next(stereo, []), 0, TestSession.Rate - Block);
        }
    }

    [Fact]
    public void Who_asks_for_a_stretch_need_not_wait_until_the_sound_recovers()
    {
        var engine = new LiveEngine(Chain(3), 0) { IsShort = static () => true };
        engine.Seek(4 * TestSession.Rate);
        var clock = Stopwatch.StartNew();

        engine.Repeat(4 * TestSession.Rate, 5 * TestSession.Rate);

        Assert.InRange(clock.Elapsed, TimeSpan.Zero, AtOnce);
    }

    private Chain Chain(double ratio, string more = "") => _session.Chain(FormattableString.Invariant($$"""
        "tracks": { "a": "raw/a.wav" },
        "buses": { "all": { "from": { "a": -3 } }, "hard": { "from": { "all": 0 }, "through": [ { "compress": { "threshold_db": -30, "ratio": {{ratio}}, "attack_ms": 2, "release_ms": 40{{more}} } } ] } },
        "prints": [ { "number": 1, "name": "All", "bus": "all" }, { "number": 2, "name": "Hard", "bus": "hard" } ]
        """));
}
