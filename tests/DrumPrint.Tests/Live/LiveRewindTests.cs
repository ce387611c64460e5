using DrumPrint.Chains;
using DrumPrint.Live;

namespace DrumPrint.Tests.Live;

[Collection(PrintedDemo.Group)]
public sealed class LiveRewindTests(PrintedDemo demo)
{
    private const int Second = 10;

    [Fact]
    public void A_change_comes_in_over_blocks_that_nobody_has_begun_to_hear()
    {
        var engine = Playing(unheard: 4);
        var told = new List<int>();
        engine.Joined = told.Add;
        var before = Take(engine, 20);

        engine.Change(Halved(demo.Chain));
        var after = Take(engine, 12);

        Assert.Equal([4], told);
        Assert.Equal(before[16].Frame, after[0].Frame);
        Assert.All(after.Zip(after.Skip(1)), pair => Assert.Equal(pair.First.Frame + engine.BlockFrames, pair.Second.Frame));

        // What was given goes over into what is half as loud, and the next block is all new.
        var (old, blend) = (before[16].Stereo, after[0].Stereo);
        for (var n = 0; n < engine.BlockFrames; n++)
        {
            var part = (n + 1.0) / (engine.BlockFrames + 1);
            Assert.Equal((1 - (part / 2)) * old[2 * n], blend[2 * n], 2e-5);
        }

        Assert.All(before[17].Stereo.Zip(after[1].Stereo), pair => Assert.Equal(pair.First / 2, pair.Second, 2e-5));
    }

    [Fact]
    public void A_second_change_before_the_first_is_heard_begins_where_that_did_or_before()
    {
        var engine = Playing(unheard: 4);
        var before = Take(engine, 20);
        engine.Change(Halved(demo.Chain));
        engine.Unheard = static () => 1;

        engine.Change(demo.Chain);
        var after = Take(engine, 6);

        Assert.Equal(before[15].Frame, after[0].Frame);
        Assert.All(before.Skip(15).Zip(after), pair => Assert.All(pair.First.Stereo.Zip(pair.Second.Stereo), s => Assert.Equal(s.First, s.Second, 2e-5)));
    }

    [Fact]
    public void A_change_goes_back_no_further_than_the_jump_before_it()
    {
        var engine = Playing(unheard: 6);
        Take(engine, 20);
        engine.Seek(12 * engine.RateHz);
        var before = Take(engine, 2);

        engine.Change(Halved(demo.Chain));

        Assert.Equal(before[0].Frame, Take(engine, 1)[0].Frame);
    }

    [Fact]
    public void Meters_count_what_is_given_again_once()
    {
        var (still, moved) = (Playing(0), Playing(4));
        Take(still, 100);
        Take(moved, 50);
        for (var n = 0; n < 10; n++)
        {
            moved.Change(demo.Chain);
            Take(moved, 4);
        }

        Take(moved, 50);

        Assert.Equal(still.Frame, moved.Frame);
        Assert.Equal(still.Meters().Before.ShortTermLufs, moved.Meters().Before.ShortTermLufs, 3);
    }

    [Fact]
    public async Task A_stretch_may_begin_anew_while_a_change_is_made()
    {
        var engine = Playing(unheard: 4);
        engine.Repeat(Second * engine.RateHz, (Second * engine.RateHz) + (20 * engine.BlockFrames));
        for (var n = 0; n < 6; n++)
        {
            engine.PrepareAgain();
            var chain = n % 2 == 0 ? Turned(demo.Chain) : demo.Chain;

            var change = SideThread.Run(() => engine.Change(chain));
            Take(engine, 25);
            await change;
        }

        engine.Repeat(null, null);
        engine.Seek(Second * engine.RateHz);
        var fresh = new LiveEngine(demo.Chain, 0);
        fresh.Seek(Second * engine.RateHz);
        Assert.All(Take(engine, 10).Zip(Take(fresh, 10)).Skip(1), pair => Assert.Equal(pair.Second.Stereo, pair.First.Stereo));
    }

    private LiveEngine Playing(int unheard)
    {
        var engine = new LiveEngine(demo.Chain, 0) { Unheard = () => unheard };
        engine.Seek(Second * engine.RateHz);
        return engine;
    }

    private static List<(long Frame, float[] Stereo)> Take(LiveEngine engine, int blocks) => [.. Enumerable.Range(0, blocks).Select(_ =>
    {
        var stereo = new float[2 * engine.BlockFrames];
        return (engine.Next(stereo, []), stereo);
    })];

    private static Chain Halved(Chain chain) => chain with { Prints = [.. chain.Prints.Select(p => p with { LevelDb = p.LevelDb - (20 * Math.Log10(2)) })] };

    // All but the tracks is made anew.
    private static Chain Turned(Chain chain) => chain with
    {
        Buses = [.. chain.Buses.Select(b => b with { Feeds = [.. b.Feeds.Select(f => f with { IsInverted = !f.IsInverted })] })],
    };
}
