using DrumPrint.Chains;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Live;

namespace DrumPrint.Tests.Live;

[Collection(PrintedDemo.Group)]
public sealed class LiveEngineTests(PrintedDemo demo)
{
    [Fact]
    public void What_is_heard_at_unity_is_the_rough()
    {
        var engine = new LiveEngine(demo.Chain, 0);
        engine.Seek(10 * engine.RateHz);
        var (heard, from) = Take(engine, 40);

        var rough = demo.Print(90);

        for (var n = engine.BlockFrames; n < heard.Length / 2; n++)
        {
            Assert.Equal(rough[0][from + n], heard[2 * n], 1e-5);
            Assert.Equal(rough[1][from + n], heard[(2 * n) + 1], 1e-5);
        }
    }

    [Fact]
    public void Through_the_drum_bus_it_is_the_other_rough()
    {
        var engine = new LiveEngine(demo.Chain, 0);
        engine.HearBus(true);
        engine.Seek(10 * engine.RateHz);
        var (heard, from) = Take(engine, 40);

        var rough = demo.Print(91);

        for (var n = engine.BlockFrames; n < heard.Length / 2; n++)
        {
            Assert.Equal(rough[0][from + n], heard[2 * n], 1e-5);
        }
    }

    [Fact]
    public void A_fader_moves_what_is_heard_and_nothing_of_the_chain()
    {
        var engine = new LiveEngine(demo.Chain, 0);
        foreach (var print in demo.Chain.Prints)
        {
            engine.Fade(print.Number, 0);
        }

        engine.Seek(10 * engine.RateHz);
        Take(engine, 2);
        var (heard, _) = Take(engine, 10);

        Assert.All(heard, sample => Assert.Equal(0, sample));
        Assert.Equal(demo.Chain, engine.Chain);
    }

    [Fact]
    public void A_change_while_it_plays_comes_in_without_a_jump()
    {
        var engine = new LiveEngine(demo.Chain, 0);
        engine.Seek(10 * engine.RateHz);
        Take(engine, 20);

        engine.Change(Inverted(demo.Chain));
        var (heard, _) = Take(engine, 2);

        // From one side to the other within a block: no step is larger than the signal's own steps and the ramp's.
        var steps = Enumerable.Range(1, engine.BlockFrames - 1).Max(n => Math.Abs(heard[2 * n] - heard[2 * (n - 1)]));
        var own = Enumerable.Range(engine.BlockFrames + 1, engine.BlockFrames - 1).Max(n => Math.Abs(heard[2 * n] - heard[2 * (n - 1)]));
        Assert.InRange(steps, 0, (3 * own) + 0.01);
    }

    [Fact]
    public async Task Playing_goes_on_while_a_change_is_made()
    {
        var engine = new LiveEngine(demo.Chain, 0);
        engine.Seek(10 * engine.RateHz);
        Take(engine, 20);
        var meanwhile = 0;

        var change = SideThread.Run(() => engine.Change(Inverted(demo.Chain)));
        while (!change.IsCompleted)
        {
            Take(engine, 1);
            meanwhile++;
            Thread.Sleep(1);
        }

        await change;
        Assert.True(meanwhile > 1, $"{meanwhile} blocks");
        Assert.NotEqual(demo.Chain, engine.Chain);
    }

    [Fact]
    public void A_chain_that_cannot_sound_leaves_the_last_one_sounding()
    {
        var engine = new LiveEngine(demo.Chain, 0);
        var broken = demo.Chain with { Tracks = [demo.Chain.Tracks[0] with { File = "raw/none.wav" }, .. demo.Chain.Tracks.Skip(1)] };

        Assert.ThrowsAny<DrumPrintException>(() => engine.Change(broken));

        Assert.Equal(demo.Chain, engine.Chain);
        Assert.NotEqual(-1, Take(engine, 1).From);
    }

    [Fact]
    public void A_stretch_is_repeated_to_the_block()
    {
        var engine = new LiveEngine(demo.Chain, 0);
        engine.Repeat(5 * engine.RateHz, 6 * engine.RateHz);
        engine.Seek(5 * engine.RateHz);
        engine.PrepareAgain();
        var peaks = new List<float>();
        var block = new float[2 * engine.BlockFrames];

        var places = Enumerable.Range(0, 150).Select(_ => engine.Next(block, peaks) / engine.BlockFrames).ToList();

        Assert.Equal([.. Enumerable.Range(500, 100), .. Enumerable.Range(500, 50)], places.Select(p => (int)p));
    }

    [Fact]
    public void The_song_ends()
    {
        var engine = new LiveEngine(demo.Chain, 0);
        engine.Seek(engine.Frames - engine.BlockFrames);
        var block = new float[2 * engine.BlockFrames];

        var places = Enumerable.Range(0, 4).Select(_ => engine.Next(block, [])).ToList();

        Assert.Equal(-1, places[^1]);
    }

    [Fact]
    public void Two_chains_can_be_matched_in_loudness()
    {
        var engine = new LiveEngine(demo.Chain, 0);
        var louder = demo.Chain with { Prints = [.. demo.Chain.Prints.Select(p => p with { LevelDb = p.LevelDb + 2 })] };

        var difference = engine.Loudness(louder, 12 * engine.RateHz, 4, CancellationToken.None) - engine.Loudness(demo.Chain, 12 * engine.RateHz, 4, CancellationToken.None);

        Assert.Equal(2, difference, 2);
    }

    private static Chain Inverted(Chain chain) => chain with
    {
        Buses = [.. chain.Buses.Select(b => b with { Feeds = [.. b.Feeds.Select(f => f with { IsInverted = !f.IsInverted })] })],
    };

    private static (float[] Heard, long From) Take(LiveEngine engine, int blocks)
    {
        var heard = new float[blocks * 2 * engine.BlockFrames];
        var first = -1L;
        for (var block = 0; block < blocks; block++)
        {
            var frame = engine.Next(heard.AsSpan(block * 2 * engine.BlockFrames, 2 * engine.BlockFrames), []);
            first = block == 0 ? frame : first;
        }

        return (heard, first);
    }
}
