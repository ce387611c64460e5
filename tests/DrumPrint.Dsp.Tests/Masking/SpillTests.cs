using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Masking;

/// <summary>Spill against scenes whose sources are known.</summary>
public sealed class SpillTests
{
    // The paper's 512 taps stand in the sheet; fewer are stricter on both figures and quick.
    private const int Taps = 32;

    // Own bars, as issued: what is asked of it on known sources.
    private const double LeastGainDb = 6;
    private const double LeastArtefactsDb = 15;
    private const double HitDb = 0.5;
    private const double GhostDb = 1;

    public static TheoryData<string> Scenes => [.. SpillScene.All.Keys];

    [Theory]
    [MemberData(nameof(Scenes))]
    public void Spill_goes_down_by_6_dB_and_more_and_own_hits_and_ghosts_stay(string name)
    {
        var scene = SpillScene.All[name]();

        var output = scene.Through();

        var separation = new Separation(scene.Own, scene.Spill, Taps);
        var before = separation.Of(scene.Mix);
        var after = separation.Of(output);
        Assert.InRange(after.Interference - before.Interference, LeastGainDb, 100);
        Assert.InRange(after.Artefacts, LeastArtefactsDb, 100);
        Assert.InRange(scene.WorstHitDb(output, -12, 0, clearDb: 6), -HitDb, HitDb);
        Assert.InRange(scene.WorstHitDb(output, -30, -20, clearDb: 6), -GhostDb, GhostDb);
    }

    [Theory]
    [InlineData(44100)]
    [InlineData(96000)]
    public void Every_rate_gives_as_much(int sampleRate)
    {
        var scene = SpillScene.SnareAndTom(2, -12, -20, sampleRate);

        var output = scene.Through();

        var separation = new Separation(scene.Own, scene.Spill, Taps);
        var before = separation.Of(scene.Mix);
        var after = separation.Of(output);
        Assert.InRange(after.Interference - before.Interference, 9, 13);
        Assert.InRange(scene.WorstHitDb(output, -12, 0, clearDb: 6), -HitDb, HitDb);
    }

    [Fact]
    public void Nothing_asked_for_leaves_every_bit()
    {
        var scene = SpillScene.SnareAndTom(2, -12, -20);

        Assert.Equal(scene.Mix, scene.Through(Spill.Amount.To(0)));
    }

    [Fact]
    public void A_key_that_is_silent_leaves_every_bit()
    {
        var scene = SpillScene.SnareAndTom(2, -12, -20);

        Assert.Equal(scene.Mix, (scene with { Key = [new double[scene.Own.Length]] }).Through());
    }

    [Fact]
    public void A_key_that_hears_this_drum_alone_leaves_it_as_it_is()
    {
        var scene = SpillScene.SnareAndTom(2, -12, -20);
        var lonely = scene with { Spill = new double[scene.Own.Length], Key = [[.. scene.Own.Select(x => 0.2 * x)]] };

        Assert.Equal(lonely.Own, lonely.Through());
    }

    [Fact]
    public void No_more_is_turned_down_than_is_allowed()
    {
        var scene = SpillScene.SnareAndTom(2, -12, -20);
        var alone = scene with { Own = new double[scene.Own.Length] };

        // Of a spill that stands alone all is turned down that is allowed.
        foreach (var amount in new[] { 3.0, 8, 20 })
        {
            var db = 10 * Math.Log10(alone.Through(Spill.Amount.To(amount)).Sum(x => x * x) / alone.Spill.Sum(x => x * x));
            Assert.InRange(db, -amount - 0.001, -amount + 1);
        }
    }

    [Fact]
    public void What_comes_louder_than_can_be_believed_is_kept()
    {
        var scene = SpillScene.SnareAndTom(2, -12, -20);

        Assert.Equal(scene.Mix, scene.Through(Spill.Most.To(-40)));
    }

    [Fact]
    public void The_report_tells_where_it_went_down()
    {
        var scene = SpillScene.SnareAndTom(2, -12, -20);
        var mix = scene.Mix;
        var context = new ProcessorContext(new AudioFormat(Run.SampleRate, 1), mix.Length + 300000, 1, new Dictionary<string, Impulse>());
        var spill = (Spill)Spill.Definition.Create(Spill.Definition.With().Settings, context);
        Run.Through(spill, [mix], 1, 480, spill.LatencyFrames + 4800, scene.Key);

        // A tom alone at 2.25 s, a snare alone at 4.5 s; hundredths of a second.
        var gains = spill.GainCurve.LowestGain.ToArray();
        Assert.InRange(Spectrum.Decibels(gains[228..240].Max()), -12.001, -10);
        Assert.InRange(Spectrum.Decibels(gains[452..456].Min()), -0.5, 0);
    }

    [Fact]
    public void Without_a_key_it_says_what_to_give_it()
    {
        var refusal = Assert.Throws<SettingsException>(() => Spill.Definition.Create(Spill.Definition.With().Settings, new ProcessorContext(new AudioFormat(48000, 1), 0)));

        Assert.Contains("has no key", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_sides_are_worked_on_each_by_itself()
    {
        var (a, b) = (SpillScene.SnareAndTom(2, -12, -20), SpillScene.All["bursts of noise, others 10 dB down 3 ms later"]());
        var both = WholeSignal.Through([a.Mix, b.Mix], Run.SampleRate, Spill.Definition.With() with { Key = a.Key });

        Assert.Equal(a.Through(), both[0][..a.Own.Length]);
    }

    // The laws of all processors hear little of it at work: it looks ahead for longer than their signals are.
    [Fact]
    public void At_work_no_cut_between_blocks_shows_and_nothing_is_allocated()
    {
        var scene = SpillScene.SnareAndTom(2, -12, -20);
        double[][] mix = [scene.Mix[..150000]];
        double[][] key = [scene.Key[0][..150000]];
        var whole = Run.Through(AtOnce(), mix, 1, 150000, key: key)[0];

        Assert.All(new[] { 1, 7, 160, 481 }, frames => Assert.Equal(whole, Run.Through(AtOnce(), mix, 1, frames, key: key)[0]));
        var processor = AtOnce();
        Assert.Equal(0, Allocations.Of(() => processor.Process(new AudioBlock(mix, 0, 150000), new AudioBlock(key, 0, 150000))));
        Assert.InRange(processor.GainCurve.LowestGain.ToArray().Min(), 0.25f, 0.4f);
    }

    [Fact]
    public void Begun_in_mid_song_it_gives_the_same_once_its_memory_is_full()
    {
        var scene = SpillScene.SnareAndTom(2, -12, -20);
        var spill = AtOnce();
        var before = 1000 * spill.StepFrames;
        var whole = Run.Through(spill, [scene.Mix], 1, key: scene.Key)[0];

        var late = Run.Through(AtOnce(), [scene.Mix[before..]], 1, key: [scene.Key[0][before..]])[0];

        var full = (int)spill.MemoryFrames + spill.LatencyFrames;
        Assert.InRange(whole[(before + full)..].Zip(late[full..], (a, b) => Math.Abs(a - b)).Max(), 0, 1e-5);
    }

    private static Spill AtOnce() => (Spill)Spill.Definition.Create(
        Spill.Definition.With(Spill.Learn.To(1), Spill.Ahead.To(0.02)).Settings, new ProcessorContext(new AudioFormat(Run.SampleRate, 1), 1 << 20, 1, new Dictionary<string, Impulse>()));
}
