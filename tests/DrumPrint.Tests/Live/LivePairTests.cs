using DrumPrint.Chains;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Live;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Live;

/// <summary>Two chains in step, of which one is heard.</summary>
public sealed class LivePairTests : IDisposable
{
    private const int Block = TestSession.Rate / 100;
    private const double GainA = 0.5;
    private const double GainB = 0.8;

    private readonly TestSession _session = new();

    public LivePairTests()
    {
        var noise = new CounterNoise(5);
        _session.Track("raw/a.wav", [.. Enumerable.Range(0, 6 * TestSession.Rate).Select(n => 0.3 * noise.Bipolar(n) * Math.Exp(-(n % 24000) / 6000.0))]);
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Each_side_is_its_own_chain_at_its_own_level_also_after_jumps()
    {
        var (engine, a, b) = Paired();

        foreach (var second in new[] { 0, 2, 4, 1 })
        {
            var frame = second * TestSession.Rate;
            foreach (var isSecond in new[] { false, true })
            {
                engine.Seek(frame);
                engine.Hear(isSecond);
                var heard = Take(engine, 30)[(2 * 4 * Block)..];
                var alone = new LiveEngine(isSecond ? b : a, 0);
                alone.Seek(frame);
                var wanted = Take(alone, 30)[(2 * 4 * Block)..];

                Assert.All(wanted.Zip(heard), p => Assert.Equal((isSecond ? GainB : GainA) * p.First, p.Second, 1e-5));
            }
        }
    }

    [Fact]
    public void Every_switch_goes_through_silence_and_one_to_the_same_side_alike()
    {
        var (engine, _, _) = Paired();
        engine.Seek(TestSession.Rate);
        Take(engine, 5);

        foreach (var isSecond in new[] { true, true, false, false })
        {
            engine.Hear(isSecond);
            var heard = Take(engine, 4);

            // Down to nothing at the end of the first block, up from nothing in the second.
            Assert.Equal(0, heard[(2 * Block) - 1]);
            Assert.All(heard[(2 * Block)..((2 * Block) + 8)], s => Assert.InRange(Math.Abs(s), 0, 0.005));
            Assert.Contains(heard[(2 * 3 * Block)..], s => Math.Abs(s) > 0.01);
        }
    }

    [Fact]
    public void What_the_prints_peak_at_is_told_of_the_first_alone()
    {
        var (engine, a, _) = Paired();
        engine.Seek(TestSession.Rate);
        engine.Hear(true);
        var alone = new LiveEngine(a, 0);
        alone.Seek(TestSession.Rate);
        List<float> peaks = [], wanted = [];
        var block = new float[2 * Block];
        for (var n = 0; n < 20; n++)
        {
            engine.Next(block, peaks);
            alone.Next(block, wanted);

            Assert.All(wanted.Zip(peaks), p => Assert.Equal(p.First, p.Second, 1e-5));
        }
    }

    [Fact]
    public void A_repeated_stretch_brings_both_back_in_step()
    {
        var (engine, _, b) = Paired();
        engine.Seek(TestSession.Rate);
        engine.Repeat(TestSession.Rate, TestSession.Rate + (40 * Block));
        engine.Hear(true);
        var frames = new List<long>();
        List<float> heard = [], peaks = [];
        var block = new float[2 * Block];
        for (var n = 0; n < 100; n++)
        {
            frames.Add(engine.Next(block, peaks));
            heard.AddRange(block);
            engine.PrepareAgain();
        }

        var alone = new LiveEngine(b, 0);
        alone.Seek(TestSession.Rate);
        var wanted = Take(alone, 20);

        Assert.Equal(TestSession.Rate, frames[40]);
        Assert.Equal(TestSession.Rate, frames[80]);
        Assert.All(Enumerable.Range(2 * Block, 2 * 19 * Block), n => Assert.Equal(GainB * wanted[n], heard[(2 * 40 * Block) + n], 1e-5));
        Assert.True(engine.IsPaired);
    }

    [Fact]
    public void A_change_of_the_chain_ends_it_and_goes_on_without_a_jump()
    {
        var (engine, a, _) = Paired();
        engine.Seek(2 * TestSession.Rate);
        engine.Hear(true);
        Take(engine, 10);

        engine.Change(a);
        Take(engine, 2);
        engine.Hear(true);
        var heard = Take(engine, 20);
        var alone = new LiveEngine(a, 0);
        alone.Seek((2 * TestSession.Rate) + (12 * Block));
        var wanted = Take(alone, 20);

        Assert.False(engine.IsPaired);
        Assert.All(wanted.Zip(heard).Skip(2 * Block), p => Assert.Equal(p.First, p.Second, 1e-5));
    }

    private (LiveEngine Engine, Chain A, Chain B) Paired()
    {
        var (a, b) = (Chain(3), Chain(12));
        var engine = new LiveEngine(a, 0);
        engine.Pair(a, b, GainA, GainB);
        return (engine, a, b);
    }

    private Chain Chain(double ratio) => _session.Chain(FormattableString.Invariant($$"""
        "tracks": { "a": "raw/a.wav" },
        "buses": { "all": { "from": { "a": -3 } }, "hard": { "from": { "all": 0 }, "through": [ { "compress": { "threshold_db": -30, "ratio": {{ratio}}, "attack_ms": 2, "release_ms": 40 } } ] } },
        "prints": [ { "number": 1, "name": "All", "bus": "all" }, { "number": 2, "name": "Hard", "bus": "hard" } ]
        """));

    private static float[] Take(LiveEngine engine, int blocks)
    {
        var heard = new float[2 * Block * blocks];
        List<float> peaks = [];
        for (var n = 0; n < blocks; n++)
        {
            engine.Next(heard.AsSpan(2 * Block * n, 2 * Block), peaks);
        }

        return heard;
    }
}
